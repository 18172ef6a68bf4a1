"""A fixed sample of each campaign; the commands named in DEVELOPERS.md run the whole of them."""

from __future__ import annotations

import json
import re
import shutil
import sys
from collections import Counter
from pathlib import Path
from types import SimpleNamespace

import pytest
from ruamel.yaml import YAML

from planner.domain.athlete import JointState
from tests.campaign import athletes, cuts, hostile, mutants, own_audit, sheets, versions
from tests.campaign.stage import BLOCK, furnish, jumpblock
from tests.campaign.table import as_table
from tests.cli.conftest import planned, solved_once  # noqa: F401  (fixtures)
from tests.coach.block_read import read_block
from tests.conflicts import scenarios
from tests.solve.demos import DEMOS, merged

FROM_THE_FILE = {"about", "demo", "athlete", "says"}  # of a pinned refusal: library and template are as shipped


@pytest.fixture(scope="module")
def furnished(planned, tmp_path_factory) -> Path:  # noqa: F811
    """The planned folder with a log, notes and a record. Not to be changed."""
    folder = Path(shutil.copytree(planned, tmp_path_factory.mktemp("campaign") / "coach"))
    furnish(folder)
    return folder


@pytest.fixture
def folder(furnished, tmp_path, monkeypatch) -> Path:
    copied = Path(shutil.copytree(furnished, tmp_path / "coach"))
    monkeypatch.chdir(copied)
    return copied


def test_broken_files_end_in_findings_and_write_nothing_half(folder) -> None:
    counts, faults = mutants.run(folder, seed=1, count=14)
    assert faults == []
    assert sum(counts.values(), Counter())["refused"] > 5


def test_broken_sheets_are_read_or_refused_at_their_cells() -> None:
    counts, faults, slowest = sheets.run(range(24))
    assert faults == []
    assert sum(counts.values(), Counter())["refused"] > 12
    assert slowest < sheets.SLOWEST_s


def test_a_finding_at_another_cell_and_a_cell_without_one_are_faults(tmp_path) -> None:
    broken = sheets.Mutant(tmp_path / "a.xlsx", cells={(4, 6)}, wrong={(4, 6)})
    found = {"path": "a.xlsx:Tests!F4", "line": 0, "column": 0, "code": "out-of-range", "message": ""}
    assert list(sheets.misplaced(broken, [found])) == []
    (elsewhere, unsaid) = sheets.misplaced(broken, [found | {"path": "a.xlsx:Tests!F5"}])
    assert "at a cell that is whole" in elsewhere and unsaid == "not found: row 4, column 6"


def test_hostile_text_is_printed_as_text_or_refused(folder) -> None:
    counts, faults = hostile.run(folder, every=120)
    assert faults == []
    assert sum(counts.values(), Counter())["done"] > 3


@pytest.mark.skipif(
    not hasattr(sys, "addaudithook") or sys.platform == "win32", reason="processes are not copied there"
)
@pytest.mark.parametrize("signals", [False, True])
def test_a_cut_leaves_every_file_whole(folder, signals) -> None:
    counts, faults = cuts.run(folder, seed=1, count=2, signals=signals, names=["log"])
    assert faults == []
    assert sum(counts.values(), Counter()).total() == 2


def test_the_own_auditor_passes_what_was_planned(furnished) -> None:
    assert own_audit.own_audit(read_block(furnished / BLOCK)) == []


# What is changed in the planned block, as a coach's slip, and the check that must find it.
SLIPS = {
    "dates": ("date: 2025-09-10", "date: 2025-09-09"),
    "session_minutes": ("minutes: ", "minutes: 1"),
    "counted_again": ("contacts: 16", "contacts: 116"),
}


@pytest.mark.parametrize("check", SLIPS)
def test_the_own_auditor_finds_a_slip(folder, check) -> None:
    old, new = SLIPS[check]
    text = (folder / BLOCK).read_text("utf-8")
    head, weeks, rest = text.partition("\nweeks:")
    (folder / BLOCK).write_text(head + weeks + rest.replace(old, new), "utf-8")
    assert any(said.startswith(f"{check}:") for said in own_audit.own_audit(read_block(folder / BLOCK)))


@pytest.mark.parametrize(("jumps_on", "faults"), [("left", 1), ("each", 1), ("both", 1), ("right", 0)])
def test_the_own_auditor_closes_the_sore_leg_and_spares_the_other(jumps_on, faults) -> None:
    jump = SimpleNamespace(
        item=SimpleNamespace(side=jumps_on), movement=SimpleNamespace(id="full-jump", stress={"patellar-knee": 3})
    )
    read = SimpleNamespace(
        template=SimpleNamespace(
            pain=[SimpleNamespace(up_to=2, tag3_share=0.5), SimpleNamespace(up_to=5, tag3_share=0)]
        ),
        athlete=SimpleNamespace(joints=[JointState(joint="patellar-knee", side="left", pain=3)]),
        lines=[jump],
    )
    assert len(list(own_audit.pain(read))) == faults


def test_the_own_auditor_knows_nothing_of_the_rules() -> None:
    for module in (own_audit, sys.modules["tests.coach.block_read"]):
        text = Path(str(module.__file__)).read_text("utf-8")
        assert not re.findall(r"^(?:from|import) planner\.(?:rules|problem|solve|audit)", text, re.MULTILINE)


HARD = {"day": "wed", "minutes": 90, "hardness": "hard"}
DATED = {"date": "2025-09-16", "minutes": 90}
TYPED = {
    "8 more minutes on Monday and 4 on Thursday": {"mon": 68, "thu": 64},
    "train on Friday instead of Thursday": {"mon": 60, "fri": 60},
    "have 20 m of runway": "20 m",
    "have rack and box in the gym": ["wall", "rack", "box"],
    "leave out the match on Saturdays": [],
    "leave out the practice on 2025-09-16": [{"day": "tue", "minutes": 90}, HARD],
    "make every practice half as long": [
        {"day": "tue", "minutes": 45},
        HARD | {"minutes": 45},
        DATED | {"minutes": 45},
    ],
    "leave out the practice on Tuesdays": [HARD, DATED],
    "leave out all practices": [],
    "make the practice on Wednesdays a medium one": [
        {"day": "tue", "minutes": 90},
        HARD | {"hardness": "medium"},
        DATED,
    ],
    "train on 2025-09-17": [],
    "lift the ban on Back squat, full depth": [],
    "remove the pin of Back squat, full depth": [],
    "a template with a floor lower by 3 contacts in week 2": None,
}


@pytest.mark.parametrize("words", TYPED)
def test_a_change_is_typed_as_it_is_told(words) -> None:
    file = {
        "training": {"days": [{"day": "mon", "minutes": 60}, {"day": "thu", "minutes": 60}], "away": ["2025-09-17"]},
        "equipment": {"items": ["wall"], "runway": "5 m"},
        "matches": [{"day": "sat"}],
        "practices": [{"day": "tue", "minutes": 90}, dict(HARD), dict(DATED)],
        "bans": ["back-squat"],
        "pins": [{"movement": "back-squat"}],
    }
    new = athletes.as_typed(words, file)
    if new is None:
        assert TYPED[words] is None
        return
    days = {day["day"]: day["minutes"] for day in new["training"]["days"]}
    places = [days, new["equipment"]["runway"], new["equipment"]["items"], new["matches"], new["training"]["away"]]
    assert TYPED[words] in [*places, new["bans"], new["pins"], new["practices"]]
    assert new != file


CASES = {path.stem: YAML(typ="safe").load(path.read_text("utf-8")) for path in scenarios.FOLDER.glob("*.yaml")}


TOLD = sorted(n for n, case in CASES.items() if {*case} <= FROM_THE_FILE and athletes.CHANGE.search(case["says"]))


@pytest.mark.long
@pytest.mark.parametrize("name", TOLD)
def test_a_pinned_refusals_change_holds_as_it_is_typed(name, tmp_path) -> None:
    who, shape = DEMOS[CASES[name]["demo"]]
    shipped = YAML(typ="safe").load((scenarios.ROOT / f"templates/athletes/{who}.yaml").read_text("utf-8"))
    lines = json.loads(json.dumps(merged(shipped, CASES[name]["athlete"]), default=str))
    with athletes.quickly():
        assert athletes.tried(CASES[name]["says"], lines, shape, tmp_path)[0] == "holds"


def test_every_dependency_states_a_lowest_version() -> None:
    held = versions.lowest((3, 11))
    assert "ortools==9.15.6755" in held and "numpy==2.0.2" in held and len(held) == 10
    assert "numpy==2.1" in versions.lowest((3, 13))


def test_a_table_has_a_line_for_each_row_and_each_fault() -> None:
    text = as_table("two", {"a": Counter(done=1), "b": Counter(done=2, broken=1)}, ("done", "broken"), ["b: why"])
    assert text.splitlines()[4].split() == ["all", "3", "1"]
    assert text.endswith("faults: 1\n  b: why")


def test_the_command_is_run_with_nothing_typed() -> None:
    assert jumpblock("--version").code == 0
    assert jumpblock("nonsense").code == 2


def test_a_link_is_an_object_of_the_pdf_and_not_what_a_packed_page_spells() -> None:
    page = b"1 0 obj\n<< /Length 9 >>\nstream\nab/URI;cd\nendstream\nendobj\n"
    assert not hostile.has_link(page)
    assert hostile.has_link(page + b"2 0 obj\n<< /S /URI /URI (http://x) >>\nendobj\n")
