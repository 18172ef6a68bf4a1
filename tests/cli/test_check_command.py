"""``jumpblock check``: every file of ours, and a block against every rule."""

from __future__ import annotations

import random
import re
from pathlib import Path

import pytest

from planner.files.load import load_library
from planner.jobs.check_block import check_block
from tests.cli.conftest import change


def line_of(path: Path, number: int) -> str:
    return path.read_text("utf-8").splitlines()[number - 1]


def test_a_planned_folder_is_fine(run, planned):
    outcome = run("check", planned, planned / "block.yaml")
    assert outcome.code == 0
    assert outcome.out.splitlines()[-1] == f"{planned / 'block.yaml'}: fine"


def test_findings_are_the_result_and_go_to_stdout(run, coach):
    pogos = coach / "exercise_library" / "pogos.yaml"
    change(pogos, "calf-ankle: 1", "calf-ancle: 1")
    outcome = run("check", pogos)
    assert outcome.code == 1
    assert "did you mean 'calf-ankle'?" in outcome.out
    assert outcome.err == ""
    as_data = run("check", pogos, "--json")
    (finding,) = as_data.json["findings"]
    assert set(finding) == {"path", "line", "column", "level", "code", "message", "hint", "other"}
    assert "calf-ancle" in line_of(pogos, finding["line"])


def test_equipment_of_usual_gyms_is_looked_up(run, coach):
    gyms = coach / "gyms.yaml"
    gyms.write_text(
        "file: usual-gyms/1\ngyms:\n  - {id: hall, name: A hall, equipment: {runway: 20 m, items: [barbel, rack]}}\n"
    )
    outcome = run("check", gyms, "--json")
    (finding,) = outcome.json["findings"]
    assert outcome.code == 1 and finding["line"] == 3 and "barbell" in finding["hint"]


def test_nothing_wrong_is_an_empty_list_as_data(run, planned):
    assert run("check", planned / "block.yaml", "--json").json == {"findings": []}


def test_an_edit_that_breaks_rules_gets_their_sentences_on_the_line(run, coach):
    block = coach / "block.yaml"
    text = block.read_text()
    squat = text.index("movement: back-squat\n")
    sets = re.compile(r"sets: \d+").search(text, squat)
    block.write_text(text[: sets.start()] + "sets: 12" + text[sets.end() :])
    outcome = run("check", block, "--json")
    assert outcome.code == 1
    by_code = {finding["code"]: finding for finding in outcome.json["findings"]}
    assert by_code["edited-block"]["level"] == "warning"
    assert "the day has" in by_code["session-minutes"]["message"]
    assert "id: w" in line_of(block, by_code["session-minutes"]["line"])
    assert "Back squat" in line_of(block, by_code["continuity"]["line"])


def test_of_two_items_in_a_sentence_the_line_is_that_of_the_one_to_blame(run, coach):
    """Whatever the items are called: the name of the one before is the longer here."""
    block = coach / "block.yaml"
    head, one, other, rest = re.split(r"(?=- id: w1s1i[12]\b)|(?=- id: w1s1i3\b)", block.read_text())
    one = re.sub(r"name: .*", f"name: {'a long name ' * 9}", re.sub(r"part: .*", "part: trunk", one))
    block.write_text(head + one + other + rest)
    found = [f for f in run("check", block, "--json").json["findings"] if f["code"] == "session-order"]
    assert found and "a long name" in found[0]["message"]
    assert line_of(block, found[0]["line"]).strip() in other


def test_a_changed_input_is_a_warning_and_a_missing_one_an_error(run, coach):
    player = coach / "templates/athletes/in-season-player.yaml"
    change(player, "name: Petra Solano", "name: Petra S.")
    outcome = run("check", coach / "block.yaml", "--json")
    assert (outcome.code, outcome.codes) == (0, ["changed-athlete"])
    player.unlink()
    outcome = run("check", coach / "block.yaml", "--json")
    assert (outcome.code, outcome.codes) == (1, ["cannot-read"])
    assert "in-season-player.yaml" in line_of(coach / "block.yaml", outcome.json["findings"][0]["line"])


@pytest.mark.parametrize(
    ("old", "new", "code"),
    [
        ("movement: back-squat\n", "movement: back-squatt\n", "unknown-movement"),
        ("id: w1s2\n", "id: w1s1\n", "duplicate-id"),
        ("number: 4\n", "number: 5\n", "other-weeks"),
    ],
)
def test_a_block_that_cannot_be_counted_says_why(run, coach, old, new, code):
    change(coach / "block.yaml", old, new)
    outcome = run("check", coach / "block.yaml", "--json")
    assert outcome.code == 1 and code in outcome.codes


@pytest.mark.parametrize(
    "seeds", [range(15), pytest.param(range(15, 500), marks=pytest.mark.long)], ids=["few", "many"]
)
def test_no_edit_of_a_block_ends_in_a_traceback(planned, seeds):
    read: dict[Path, object] = {}

    def library(path: Path, display: str):
        if path not in read:
            read[path] = load_library(path, display)
        return read[path]

    lines = (planned / "block.yaml").read_text("utf-8").splitlines(keepends=True)
    refused = 0
    for seed in seeds:
        edited = planned / f"edited-{seed}.yaml"  # beside the block, since its paths are relative
        edited.write_text("".join(mangled(lines, random.Random(seed))), "utf-8")
        try:
            findings = check_block(edited, edited.name, library)
        finally:
            edited.unlink()
        refused += any(finding.level == "error" for finding in findings)
    assert refused > len(seeds) / 4, "most edits of numbers break something"


def mangled(lines: list[str], chance: random.Random) -> list[str]:
    """One to three lines of the weeks changed: another number, nothing, or another line's value of the same field."""
    found = list(lines)
    first = next(index for index, line in enumerate(found) if line.startswith("weeks:")) + 1
    for _ in range(chance.choice((1, 1, 3))):
        at = chance.choice([index for index in range(first, len(found)) if ":" in found[index]])
        key, _, value = found[at].partition(":")
        same = [line.partition(":")[2] for line in lines[first:] if line.partition(":")[0].strip() == key.strip()]
        number = re.sub(r"\d+", lambda _: str(chance.choice((0, 1, 2, 9, 40))), value, count=1)
        found[at] = f"{key}:" + chance.choice([number, " null\n", chance.choice(same or [value])])
    return found
