"""An athlete written in pounds and inches is told pounds and inches, by every command and on every card."""

from __future__ import annotations

import io
import re
import shlex
import shutil
from functools import cache
from pathlib import Path

import pytest
import yaml
from pypdf import PdfReader

from planner.cli import main
from planner.files.load import load_bytes
from planner.jobs import plan_block, plan_squad
from tests.cli.imperial import SOURCE, adult_in_inches, as_the_demo, plan_imperial
from tests.force_platform.simulate import SHAPES, simulate

TEMPLATES = Path(__file__).parents[2] / "templates"
METRIC = re.compile(r"\d[\d.]* ?(?:kg|cm|mm|km|m)\b(?!/s)|\b(?:kg|kilos?|cm|mm|km|metres?|centimetres?)\b", re.ASCII)
# What stays metric, and why.
STAYS = (
    r"\d N/kg|\d W/kg|\bm/s\b",  # speeds, and force and power of a kilogram, are told so in the trade everywhere
    r"unit: (?:kg|m)\b|\w+_(?:kg|m|cm)\b",  # figures of a block, data with its unit in its name
)
COMMANDS = {
    "gap": "gap {athlete}",
    "gap, all of it": "gap {adult} --full",
    "check, all of it": "check --verbose {adult}",
    "the test sheet's tests": "test {adult} --show",
    "test": "test {athlete} --show",
    "results of a test day": 'test {adult} --date 2025-11-01 --result 2 "124, 124 1/2 in" --dry-run',
    "the block's story": "why {block}",
    "a week": "why {block} --week 1",
    "a session": "why {block} --week 1 --session 1",
    "a movement": "why {block} crouch-start-10",
    "check": "check {block}",
    "change": "change {block} w2s1 --sets 1=2 -o {folder}/changed.yaml",
    "a day moved": "change {block} w2s1 --move tue -o {folder}/moved.yaml",
    "a change that needs more floor": "change {block} w2s1 --swap crouch-start-10=acceleration-30 -o {folder}/far.yaml",
    "the changed block": "change {block} w2s1 --sets 1=2 -o -",
    "log": 'log {block} w2s1 --effort 7 --minutes 60 --item 3 "200 lb x 5; 3 left" --log {folder}/log.yaml --dry-run',
    "a slip in the log": 'log {block} w2s1 --effort 7 --item 3 "430 lb x 5" --log {folder}/log.yaml --dry-run',
    "progress": "progress {block} --log {folder}/log.yaml",
    "progress as a page": "progress {block} --log {folder}/log.yaml -o -",
    "the loads anew": "revise {logged} --loads-only",
    "the rest anew": "revise {logged} -o {folder}/rest.yaml",
    "outcome": "outcome {block} --athlete {retested} --log {folder}/log.yaml",
    "outcome as a page": "outcome {block} --athlete {retested} --log {folder}/log.yaml -o -",
    "calendar": "calendar {block} -o -",
    "cards": "cards {block} -o -",
    "cards to come": "cards {block} --log {folder}/log.yaml --from 2025-09-15 -o -",
    "the library's drop jump": "library show drop-jump-30 --athlete {athlete}",
    "the library's sprint": "library show flying-10 --athlete {athlete}",
    "the squad": "squad overview {squad}",
    "the squad as a page": "squad overview {squad} -o {folder}/squad.pdf",
    "the squad after its block": "squad overview {club} --sort change",
    "the squad after its block as a page": "squad overview {club} -o {folder}/club.pdf",
    "start times": "squad slots {club}",
    "start times as sheets and cards": "squad slots {club} --days 3 -o {folder}/wall.pdf --cards {folder}/day.pdf",
}
SQUAD = """\
file: squad/1
name: Bay
athletes: [{athletes}]
blocks: blocks
halls:
  - name: Gym
    open: [{{days: [mon, tue, wed, thu, fri, sat, sun], from: "16:00", to: "19:00"}}]
    stations:
      - {{name: rack, number: 1, equipment: [rack]}}
      - {{name: runway, number: 1, share: 4, parts: [sprint, approach-jump]}}
"""
LOGGED = (
    ("w1s1", "--item", "3", "195 lb x 5, 5, 5; 3 left", "--body-mass", "155 lb"),
    ("w1s2", "--item", "3", "115 in, 116 1/2 in"),
)


@pytest.fixture(scope="module")
def folder(tmp_path_factory) -> Path:
    made = tmp_path_factory.mktemp("imperial")
    plan_imperial(made)
    adult_in_inches(made)
    block = f"{made}/block.yaml"
    for log in (f"{made}/log.yaml", f"{made}/block-log.yaml"):
        for session, *told in LOGGED:
            assert main(["log", block, session, "--effort", "7", "--minutes", "60", *told, "--log", log]) == 0
    shutil.copy(made / "petra.yaml", made / "retested.yaml")
    results = ("--result", "touch", "119, 119.5, 119 in", "--result", "back-squat", "205 lb x 5; 2 left")
    assert main(["test", f"{made}/retested.yaml", "--date", "2025-10-04", *results]) == 0
    _squads(made)
    return made


def _squads(made: Path) -> None:
    """Two squads: petra alone, and petra with one who was tested again after the block."""
    (made / "squad.yaml").write_text(SQUAD.format(athletes="petra.yaml"), "utf-8")
    (made / "club.yaml").write_text(SQUAD.format(athletes="petra.yaml, retested.yaml"), "utf-8")
    (made / "blocks").mkdir()
    block = (made / "block.yaml").read_text("utf-8")
    for name in ("petra", "retested"):
        own = block.replace("{path: petra.yaml", f"{{path: ../{name}.yaml")
        (made / f"blocks/{name}.yaml").write_text(own, "utf-8")


def _narrower(text: str, yards: int) -> str:
    assert "runway: 27.5 yd" in text
    return text.replace("runway: 27.5 yd", f"runway: {yards} yd")


@pytest.mark.parametrize("name", COMMANDS)
def test_no_line_is_metric(name, folder, capsysbinary):
    places = {"athlete": folder / "petra.yaml", "adult": folder / "cole.yaml", "retested": folder / "retested.yaml"}
    blocks = {"block": folder / "block.yaml", "logged": folder / "block.yaml", "squad": folder / "squad.yaml"}
    words = shlex.split(COMMANDS[name].format(folder=folder, club=folder / "club.yaml", **places, **blocks))
    code = main(words)
    printed = capsysbinary.readouterr()
    text = in_text(printed.out) + printed.err.decode("utf-8")
    assert code == 0, text
    assert text.strip()
    pages = [in_text(Path(word).read_bytes()) for word in words if word.endswith(".pdf")]
    assert all(page.strip() for page in pages)
    assert _metric("\n".join([text, *pages])) == []


def test_the_rest_on_a_shorter_floor_says_why_in_yards(folder, capsys):
    narrow = folder / "narrow.yaml"
    narrow.write_text(_narrower((folder / "petra.yaml").read_text("utf-8"), 12), "utf-8")
    assert main(["revise", f"{folder}/block.yaml", "--athlete", str(narrow), "-o", f"{folder}/r.yaml"]) == 0
    told = capsys.readouterr().err
    assert re.search(r"needs [\d.]+ yd of runway", run_on(told))
    assert _metric(told + (folder / "r.yaml").read_text("utf-8")) == []


def test_a_squads_plan_is_told_in_pounds_and_inches(folder, capsys, monkeypatch):
    """The table, the block of who has one, and why another has none."""
    low = (folder / "petra.yaml").read_text("utf-8").replace("touch: 118.5 in", "touch: 85 in")
    (folder / "low.yaml").write_text(low, "utf-8")
    (folder / "new.yaml").write_text(SQUAD.format(athletes="petra.yaml, low.yaml"), "utf-8")
    monkeypatch.setattr(plan_squad, "in_processes", lambda work, tasks, jobs: enumerate(map(work, tasks)))
    monkeypatch.setattr(plan_block, "solve", as_the_demo)
    assert main(["squad", "plan", f"{folder}/new.yaml", "-o", f"{folder}/new"]) == 1
    told = "".join(capsys.readouterr())
    assert "2 athletes: 1 refused, 1 planned." in told and "the target, 85 in, is below" in run_on(told)
    assert _metric(told + (folder / "new/petra.yaml").read_text("utf-8")) == []


def test_a_platform_record_into_the_athletes_file_is_told_in_inches(folder, capsysbinary):
    made = simulate(SHAPES["one hump"], noise_N=3.0, offset_N=20, seed=1, two_platforms=True)
    (_, left), (_, right) = made.record.sides
    rows = [f"{n / 1000:.3f}\t{a + b:.2f}" for n, (a, b) in enumerate(zip(left, right, strict=True))]
    record, athlete = folder / "jump.tsv", folder / "on-platform.yaml"
    record.write_text("\n".join(["Time [s]\tFz [N]", *rows]), "utf-8")
    shutil.copy(folder / "cole.yaml", athlete)
    before = athlete.read_text("utf-8")
    into = ("--into", str(athlete), "--date", "2025-09-20", "-o", f"{folder}/trace.pdf")
    assert main(["platform", str(record), *into]) == 0
    printed = capsysbinary.readouterr()
    told = in_text(printed.out) + printed.err.decode("utf-8") + in_text((folder / "trace.pdf").read_bytes())
    assert "rise by impulse" in told and " in " in told
    assert _metric(told) == []
    assert _metric(athlete.read_text("utf-8").removeprefix(before.rstrip())) == []
    assert main(["platform", str(record)]) == 0  # nobody's: as the record's trade writes it
    assert _metric(in_text(capsysbinary.readouterr().out))


def test_a_refused_plan_names_the_floor_in_yards(folder, capsysbinary):
    short = folder / "short.yaml"
    text = _narrower((folder / "petra.yaml").read_text("utf-8"), 4)
    short.write_text(text + "\npins: [{movement: acceleration-30}]\n", "utf-8")
    assert main(["plan", str(short)]) == 1
    told = capsysbinary.readouterr().err.decode("utf-8")
    assert "yd of runway" in told
    assert _metric(told) == []


def test_the_library_alone_is_as_it_is_written(capsysbinary):
    assert main(["library", "show", "drop-jump-30"]) == 0
    assert "drop 30 cm" in capsysbinary.readouterr().out.decode("utf-8")


def test_the_block_says_pounds_and_inches(folder):
    assert _metric((folder / "block.yaml").read_text("utf-8")) == []


def test_a_line_of_the_file_goes_before_how_the_body_is_written():
    written = SOURCE.read_text("utf-8")
    pounds = written.replace("body_mass: 71 kg", "body_mass: 156 lb").replace("stature: 1.81 m", "stature: 5 ft 11 in")
    for lines, units in (
        (pounds, ("kg", "cm")),  # print_as says so
        (pounds.replace("print_as: {mass: kg, length: cm, paper: a4}", "print_as: {paper: letter}"), ("lb", "in")),
        (written.replace("print_as: {mass: kg, length: cm, paper: a4}\n", ""), ("kg", "cm")),
    ):
        read = load_bytes(lines.encode(), "petra.yaml").value.print_as
        assert (read.mass, read.length) == units


def in_text(raw: bytes) -> str:
    if raw.startswith(b"%PDF"):
        return "\n".join(page.extract_text() for page in PdfReader(io.BytesIO(raw)).pages)
    return raw.decode("utf-8").replace("\r\n ", "")  # a calendar's long lines are folded


def _metric(text: str) -> list[str]:
    """What is metric in a text, its lines run together, without what stays so and the sources, which are quoted."""
    line = run_on(text)
    for source in sorted(_sources(), key=len, reverse=True):
        line = line.replace(source, "")
    for stays in STAYS:
        line = re.sub(stays, "", line)
    return [line[max(0, found.start() - 50) : found.end() + 20] for found in METRIC.finditer(line)]


def run_on(text: str) -> str:
    return re.sub(r"\s+", " ", text)


@cache
def _sources() -> frozenset[str]:
    """Every source of the templates, as it is written there."""
    found = set()
    for path in TEMPLATES.glob("*/*.yaml"):
        _collect(yaml.safe_load(path.read_text("utf-8")), found)
    return frozenset(found)


def _collect(value: object, found: set[str]) -> None:
    if isinstance(value, dict):
        found |= {run_on(text) for key, text in value.items() if str(key).endswith("source") and isinstance(text, str)}
    for below in value.values() if isinstance(value, dict) else value if isinstance(value, list) else ():
        _collect(below, found)
