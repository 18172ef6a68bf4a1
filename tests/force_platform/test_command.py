"""``jumpblock platform``: text, data, picture, and the test spliced into an athlete's file with its comments kept."""

import io
import json
import re
import shutil
from itertools import pairwise

import pypdf
import pytest

from planner.cli.platform import command
from planner.files.load import load_athlete
from tests.estimate.people import CHECKOUT
from tests.force_platform import running
from tests.force_platform.simulate import SHAPES, simulate

INTO = "2025-09-20"
DEMO = CHECKOUT / "templates/athletes/adult-one-leg-jumper.yaml"


@pytest.fixture
def records(tmp_path):
    paths = []
    for seed in (1, 2, 3):
        made = simulate(SHAPES["one hump"], noise_N=3.0, offset_N=20, seed=seed, two_platforms=True)
        (_, left), (_, right) = made.record.sides
        rows = [f"{n / 1000:.3f}\t{a:.2f}\t{b:.2f}" for n, (a, b) in enumerate(zip(left, right, strict=True))]
        path = tmp_path / f"jump{seed}.tsv"
        path.write_text("\n".join(["Time [s]\tLeft Fz [N]\tRight Fz [N]", *rows]))
        paths.append(str(path))
    return paths


def run(*arguments):
    return running.run(command, *arguments)


def test_text_shows_both_heights_and_fits_the_width(records):
    done = run(*records)
    assert done.exit_code == 0
    assert "rise by impulse" in done.stdout
    assert "rise by flight time" in done.stdout
    assert "all of them count" in done.stdout
    assert max(map(len, done.stdout.splitlines())) <= 100 + len(records[0])


def test_json_holds_finite_figures(records):
    done = run(records[0], "--json")
    (jump,) = json.loads(done.stdout)
    assert jump["rise_by_impulse_m"] == pytest.approx(0.37, abs=0.02)
    assert jump["rise_by_impulse_m_se"] > 0
    assert [phase["name"] for phase in jump["phases"]][-1] == "landing"
    assert len(jump["sides"]) == 2


def test_picture_is_one_page_with_the_phases_named(records, tmp_path):
    target = tmp_path / "trace.pdf"
    assert run(records[0], "-o", str(target)).exit_code == 0
    pages = pypdf.PdfReader(io.BytesIO(target.read_bytes())).pages
    assert len(pages) == 1
    words = pages[0].extract_text()
    for name in ("weighing", "unweighting", "braking", "propulsion", "flight", "landing", "body weight"):
        assert name in words
    first = target.read_bytes()
    run(records[0], "-o", str(target))
    assert target.read_bytes() == first


def test_every_record_has_its_page_under_its_name(records, tmp_path):
    target = tmp_path / "trace.pdf"
    assert run(*records, "-o", str(target)).exit_code == 0
    headings = [page.extract_text().splitlines()[0] for page in pypdf.PdfReader(target).pages]
    assert headings == ["jump1.tsv", "jump2.tsv", "jump3.tsv"]


def test_another_body_than_the_athletes_is_warned_of(records, tmp_path):
    athlete = tmp_path / "athlete.yaml"
    text = DEMO.read_text("utf-8")
    athlete.write_text(re.sub(r"body_mass: [\d.]+ kg", "body_mass: 62 kg", text), "utf-8")
    done = run(records[0], "--into", str(athlete), "--date", INTO)
    assert done.exit_code == 0
    assert "the platform weighs 75 kg, the athlete's file says 62 kg" in done.stderr
    athlete.write_text(re.sub(r"body_mass: [\d.]+ kg", "body_mass: 76 kg", text), "utf-8")
    assert "body-mass-differs" not in run(records[0], "--into", str(athlete), "--date", INTO).stderr


def test_trials_stand_on_lines_that_can_be_read(records, tmp_path):
    athlete = tmp_path / "athlete.yaml"
    shutil.copyfile(DEMO, athlete)
    run(*records, "--into", str(athlete), "--date", INTO)
    before = set(DEMO.read_text("utf-8").splitlines())
    added = [line for line in athlete.read_text("utf-8").splitlines() if line not in before]
    assert len(added) > 10
    assert max(map(len, added)) <= 120


def test_test_goes_into_the_athlete_with_every_line_kept(records, tmp_path):
    athlete = tmp_path / "athlete.yaml"
    shutil.copyfile(DEMO, athlete)
    before = athlete.read_text("utf-8")
    done = run(*records, "--into", str(athlete), "--date", INTO)
    assert done.exit_code == 0, done.output
    after = athlete.read_text("utf-8")
    kept = iter(after.splitlines())
    assert all(line in kept for line in before.splitlines())  # in order, nothing lost
    test = load_athlete(athlete).require().tests[-1]
    assert (test.kind, test.date.isoformat(), len(test.trials)) == ("force-platform", INTO, 3)
    assert test.trials[0].rise_by_impulse == pytest.approx(0.37, abs=0.02)
    again = run(*records, "--into", str(athlete), "--date", INTO)
    assert again.exit_code == 1
    assert athlete.read_text("utf-8") == after


def test_into_needs_a_date_and_a_readable_athlete(records, tmp_path):
    athlete = tmp_path / "athlete.yaml"
    athlete.write_text("file: athlete/1\nname: [")
    assert run(records[0], "--into", str(athlete)).exit_code == 2
    assert run(records[0], "--into", str(athlete), "--date", INTO).exit_code == 1
    assert athlete.read_text() == "file: athlete/1\nname: ["


def test_refusals_name_the_record(records, tmp_path):
    bare = tmp_path / "bare.txt"
    bare.write_text("\n".join(["650"] * 100))
    done = run(str(bare))
    assert done.exit_code == 1
    assert f"{bare}: [no-rate]" in done.stderr
    done = run(str(bare), "--rate", "1000", "--json")
    assert done.exit_code == 1
    assert {finding["code"] for finding in json.loads(done.stdout)["findings"]} >= {"no-flight"}
    assert run(str(tmp_path / "nothing.csv")).exit_code == 1
    assert run(records[0], "--left", "x").exit_code == 2


def test_phases_join(records):
    (jump,) = json.loads(run(records[1], "--json").stdout)
    assert all(one["end_s"] == pytest.approx(two["start_s"]) for one, two in pairwise(jump["phases"]))


def test_record_whose_name_the_font_lacks_is_a_finding(records, tmp_path):
    odd = tmp_path / "跳.tsv"
    shutil.copyfile(records[0], odd)
    done = run(str(odd), "-o", str(tmp_path / "trace.pdf"))
    assert done.exit_code == 1
    assert "[no-letter]" in done.stderr
    assert not (tmp_path / "trace.pdf").exists()


def test_what_cannot_be_added_leaves_the_athlete_as_it_was(records, tmp_path):
    """A file that changed its form meanwhile, or a list in brackets: refused, nothing written."""
    athlete = tmp_path / "athlete.yaml"
    text = DEMO.read_text("utf-8")
    start = text.index("tests:")
    one = "[{kind: touch, date: 2025-09-06, take_off: one-leg left, run_up: true, trials: [3.10 m]}]"
    athlete.write_text(f"{text[:start]}tests: {one}\n", "utf-8")
    before = athlete.read_bytes()
    done = run(records[0], "--into", str(athlete), "--date", INTO)
    assert done.exit_code == 1
    assert "[cannot-add]" in done.stderr
    assert athlete.read_bytes() == before


def test_nothing_is_written_where_any_part_is_refused(records, tmp_path):
    athlete, picture = tmp_path / "athlete.yaml", tmp_path / "trace.pdf"
    shutil.copyfile(DEMO, athlete)
    before = athlete.read_bytes()
    (tmp_path / "file").write_text("")
    words = (*records, "--into", str(athlete), "--date", INTO, "-o")
    assert run(*words, str(tmp_path / "file" / "trace.pdf")).exit_code == 1  # no folder for the picture
    assert athlete.read_bytes() == before
    assert run(*words, str(picture)).exit_code == 0 and picture.exists()
    picture.unlink()
    assert run(*words, str(picture)).exit_code == 1  # the test is in the file already
    assert not picture.exists()
