"""A template names the file of its limits: merged key by key, each finding on the line of the file that is at fault."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from planner.domain.template import Template
from planner.files.document import Loaded
from planner.files.dump import plain_to_yaml
from planner.files.file_checker import Checker
from planner.files.load import load_bytes, load_template

ROOT = Path(__file__).parents[2]
BLOCKS, LIMITS = "templates/blocks/eight-week.yaml", "templates/limits/standard.yaml"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A coach's folder with one template and its limits."""
    for name in (BLOCKS, LIMITS):
        path = tmp_path / name
        path.parent.mkdir(parents=True)
        path.write_text((ROOT / name).read_text("utf-8"), "utf-8")
    return tmp_path


def edit(path: Path, old: str, new: str) -> int:
    """Change the first place; the line it is on."""
    text = path.read_text("utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), "utf-8")
    return text[: text.index(old)].count("\n") + 1


def read(folder: Path) -> Loaded[Template]:
    return load_template(folder / BLOCKS, BLOCKS)


def found(folder: Path) -> list[tuple[str, int, str]]:
    loaded = read(folder)
    assert loaded.value is None
    return [(finding.path.removeprefix(f"{folder}/"), finding.line, finding.code) for finding in loaded.findings]


def test_what_a_template_writes_itself_takes_the_place_of_the_shared_limit_and_of_nothing_else(folder: Path) -> None:
    before = read(folder).require()
    edit(
        folder / BLOCKS,
        "reference_week:",
        "youth: {jump_days: 3}\npain: [{up_to: 1, ceiling_factor: 1, tag3_share: 1}]\nreference_week:",
    )
    after = read(folder).require()
    assert (before.youth.jump_days, after.youth.jump_days) == (2, 3)
    assert after.youth == before.youth.model_copy(update={"jump_days": 3})
    assert [step.up_to for step in after.pain] == [1]
    same = before.model_copy(update={"youth": after.youth, "pain": after.pain})
    assert after == same


def test_the_limits_of_a_level_that_the_template_does_not_serve_are_left_out() -> None:
    assert list(load_template(ROOT / "templates/blocks/youth-eight-week.yaml").require().levels) == ["novice"]


def test_a_changed_limit_is_a_changed_template(folder: Path) -> None:
    before = read(folder)
    edit(folder / LIMITS, "jump_days: 2", "jump_days: 3")
    after = read(folder)
    assert before.sha256 != after.sha256
    assert after.require().youth.jump_days == 3


def test_a_wrong_shared_value_is_told_on_its_line_of_the_limits_file(folder: Path) -> None:
    line = edit(folder / LIMITS, "jump_days: 2", "jump_days: 9")
    places = found(folder)
    assert [(line_, code) for _, line_, code in places] == [(line, "out-of-range")], places
    assert places[0][0].endswith("limits/standard.yaml")


def test_sense_is_told_on_the_line_of_the_file_that_holds_it(folder: Path) -> None:
    line = edit(folder / LIMITS, "  low: 0.41\n", "  low: 0.91\n")
    ((path, at, code),) = found(folder)
    assert path.endswith("limits/standard.yaml") and (at, code) == (line, "range-reversed")


def test_a_wrong_value_written_over_a_shared_one_is_told_in_the_template(folder: Path) -> None:
    line = edit(folder / BLOCKS, "reference_week:", "youth: {jump_days: 9}\nreference_week:")
    assert found(folder) == [(BLOCKS, line, "out-of-range")]


@pytest.mark.parametrize(
    ("old", "new", "code"),
    [
        ("limits: standard ", "limits: standart ", "unknown-file"),
        ("limits: standard ", "limits: [standard] ", "not-text"),
        ("limits: standard ", "limits: no/such.yaml ", "cannot-read"),
        ("- speed-and-power\n", "- speed-and-powr\n", "unknown-shape"),
    ],
)
def test_a_name_that_leads_nowhere_is_told_on_its_line(folder: Path, old: str, new: str, code: str) -> None:
    line = edit(folder / BLOCKS, old, new)
    assert found(folder) == [(BLOCKS, line, code)]


def test_a_limits_file_is_looked_for_near_the_template_then_in_the_package(folder: Path, tmp_path: Path) -> None:
    edit(folder / LIMITS, "jump_days: 2", "jump_days: 3")
    assert read(folder).require().youth.jump_days == 3
    (folder / LIMITS).unlink()
    assert read(folder).require().youth.jump_days == 2


def test_a_template_that_writes_everything_itself_needs_no_limits_file() -> None:
    shipped = load_template(ROOT / BLOCKS).require()
    loaded: Loaded[Any] = load_bytes(plain_to_yaml(shipped.model_dump()).encode(), "mine.yaml", ("template/1",))
    assert loaded.require() == shipped


def test_a_week_more_changes_one_list_and_the_last_line_of_its_role_serves_it(folder: Path) -> None:
    edit(
        folder / BLOCKS,
        "- {phase: taper, role: taper}",
        "- {phase: intensify, role: intensify}\n- {phase: taper, role: taper}",
    )
    before, after = load_template(ROOT / BLOCKS).require(), read(folder).require()
    assert len(after.weeks) == len(before.weeks) + 1
    for level, plan in after.levels.items():
        assert plan.weeks == (*before.levels[level].weeks[:7], *before.levels[level].weeks[6:])
    for name, scheme in after.schemes.items():
        assert scheme.weeks == (*before.schemes[name].weeks[:7], *before.schemes[name].weeks[6:])


def test_a_role_without_a_line_is_told_where_the_lines_are(folder: Path) -> None:
    line = edit(folder / BLOCKS, "      taper: {sets: [2, 2]", "      tapr: {sets: [2, 2]")
    codes = {code for path, at, code in found(folder) if abs(at - line) < 15 and path == BLOCKS}
    assert codes == {"unknown-role", "role-missing"}


def test_a_scheme_of_the_templates_own_is_told_the_same_each_time_it_is_read(folder: Path) -> None:
    edit(folder / BLOCKS, "\nschemes:\n", "\nschemes:\n  of-our-own: {weeks: {build: {sets: [2, 2]}}}\n")
    first = found(folder)
    assert "role-missing" in {code for _, _, code in first}
    assert found(folder) == first


def test_check_reads_a_folder_of_templates_and_limits(folder: Path) -> None:
    assert [f for f in Checker().check(folder) if f.level == "error"] == []
    edit(folder / LIMITS, "jump_days: 2", "jump_days: 9")
    assert {(f.path.rpartition("templates/")[2], f.code) for f in Checker().check(folder)} == {
        ("limits/standard.yaml", "out-of-range")
    }
