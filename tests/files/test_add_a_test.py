"""A test added to an athlete's file, and entries put into and taken out of lists and mappings, byte by byte."""

from __future__ import annotations

import datetime
from pathlib import Path
from typing import Any

import pytest

from files.snippets import ATHLETE
from planner.domain.findings import UserError
from planner.files.add_test import AthleteFile
from planner.files.edit import edited
from planner.files.edit_steps import CannotEdit, Insert, Remove, _same
from planner.files.file_checker import _library_roots
from planner.files.load import load_bytes, then
from planner.files.sense.athlete_sense import athlete_sense

JUMP: dict[str, Any] = {
    "kind": "force-platform",
    "date": datetime.date(2025, 9, 4),
    "take_off": "two-leg",
    "jump": "countermovement",
    "trials": [{"flight": "0.50 s"}],
}


@pytest.fixture
def nora(tmp_path: Path) -> Path:
    path = tmp_path / "nora.yaml"
    path.write_text(ATHLETE, "utf-8")
    return path


def test_a_test_stands_last_and_every_other_byte_stays(nora: Path) -> None:
    nora.write_bytes(b"\xef\xbb\xbf" + nora.read_bytes())
    file = AthleteFile(str(nora))
    before = nora.read_bytes()
    raw = file.with_tests([JUMP])
    assert raw.startswith(b"\xef\xbb\xbffile:") and nora.read_bytes() == before
    file.write(raw)
    after = AthleteFile(str(nora))
    assert len(after.athlete.tests) == len(file.athlete.tests) + 1 and after.athlete.tests[-1].kind == "force-platform"
    changed = (at for at, (one, other) in enumerate(zip(before, raw, strict=False)) if one != other)
    assert raw.endswith(before[next(changed, len(before)) :])


def test_a_test_that_is_there_already_is_known(nora: Path) -> None:
    file = AthleteFile(str(nora))
    assert not file.has_same(JUMP)
    file.write(file.with_tests([JUMP]))
    after = AthleteFile(str(nora))
    assert after.has_same(JUMP)
    assert not after.has_same({**JUMP, "jump": "squat"})
    assert not after.has_same({**JUMP, "date": datetime.date(2025, 9, 5)})


def test_a_test_that_would_spoil_the_file_is_refused_and_nothing_is_written(nora: Path) -> None:
    file = AthleteFile(str(nora))
    for wrong in ({**JUMP, "take_off": "three-leg"}, {"kind": "force-platform"}):
        with pytest.raises(UserError):
            file.with_tests([wrong])
    assert nora.read_text("utf-8") == ATHLETE
    with pytest.raises(UserError):
        AthleteFile(str(nora.with_name("none.yaml")))


def test_a_file_that_was_changed_meanwhile_is_left(nora: Path) -> None:
    file = AthleteFile(str(nora))
    nora.write_text(ATHLETE.replace("Nora", "Mona"), "utf-8")
    with pytest.raises(UserError):
        file.write(file.with_tests([JUMP]))
    assert "Mona" in nora.read_text("utf-8")


@pytest.mark.parametrize(
    ("text", "index", "after"),
    [
        ("a:\n  - b: 1\n  - b: 2\n", 1, "a:\n  - b: 1\n  - b: 9\n  - b: 2\n"),
        ("a:\n  - b: 1\n  - b: 2\n", 2, "a:\n  - b: 1\n  - b: 2\n  - b: 9\n"),
        ("a:\n  - b: 1\n\n  - b: 2\n", 1, "a:\n  - b: 1\n\n  - b: 9\n\n  - b: 2\n"),
        ("a:\r\n- b: 1\r\nc: 2\r\n", 1, "a:\r\n- b: 1\r\n\r\n- b: 9\r\nc: 2\r\n"),
        ("a:\n- b: 1\n- b: 2\nc: 2\n", 1, "a:\n- b: 1\n- b: 9\n- b: 2\nc: 2\n"),
        ("a:\n  - b: 1\n  - b: 2\n", 0, "a:\n  - b: 9\n  - b: 1\n  - b: 2\n"),
        ("a:\r\n- b: 1\r\nc: 2\r\n", 0, "a:\r\n- b: 9\r\n\r\n- b: 1\r\nc: 2\r\n"),
    ],
)
def test_an_entry_is_put_between_its_neighbours(text: str, index: int, after: str) -> None:
    assert edited(text, [Insert(("a",), index, {"b": 9})]) == after


@pytest.mark.parametrize("text", ["a: [{b: 1}]\n", "a: []\n", "a: 1\n"])
def test_an_entry_is_put_into_a_list_of_lines_alone_and_within_it(text: str) -> None:
    with pytest.raises(CannotEdit):
        edited(text, [Insert(("a",), 1, {"b": 9})])
    for index in (-1, 3):
        with pytest.raises(CannotEdit):
            edited("a:\n  - b: 1\n  - b: 2\n", [Insert(("a",), index, {"b": 9})])


@pytest.mark.parametrize(
    ("text", "path", "after"),
    [
        ("a: 1\nb: 2\nc: 3\n", ("b",), "a: 1\nc: 3\n"),
        ("a: 1\nb: 2", ("b",), "a: 1"),
        ("a: 1\r\nb: 2", ("b",), "a: 1"),
        ("a: 1\nb: 2  # why\nc: 3\n", ("b",), "a: 1\n# why\nc: 3\n"),
        ("a: {b: 1, c: 2, d: 3}\n", ("a", "b"), "a: {c: 2, d: 3}\n"),
        ("a: {b: 1, c: 2, d: 3}\n", ("a", "c"), "a: {b: 1, d: 3}\n"),
        ("a: {b: 1, c: 2, d: 3}\n", ("a", "d"), "a: {b: 1, c: 2}\n"),
        ("a: [1, 2, 3]\n", ("a", 0), "a: [2, 3]\n"),
        ("a: [1, 2, 3]\n", ("a", 2), "a: [1, 2]\n"),
    ],
)
def test_what_is_dropped_goes_with_its_line_or_comma_and_remarks_stay(text: str, path: Any, after: str) -> None:
    assert edited(text, [Remove(path)]) == after


def test_library_folders_inside_another_are_read_with_it() -> None:
    files = [Path(name) for name in ("b/c/d.yaml", "b/e.yaml", "bc/f.yaml", "a/g/h.yaml")]
    assert _library_roots(files) == [Path("b"), Path("bc"), Path("a/g")]


@pytest.mark.parametrize(
    ("one", "other", "same"),
    [
        ({"a": [1, {"b": 2}]}, {"a": [1, {"b": 2}]}, True),
        ({"a": 1}, {"a": 1.0}, False),
        ({"a": 1}, {"a": True}, False),
        ({"a": 1}, {"a": 2}, False),
        ({"a": 1}, {"b": 1}, False),
        ({}, {"b": 1}, False),
        ([1, 2], [1, 3], False),
        ([1], [1, 2], False),
        ([], {}, False),
    ],
)
def test_data_is_the_same_only_in_kind_too(one: Any, other: Any, same: bool) -> None:
    assert _same(one, other) is same and _same(other, one) is same


def test_a_platform_trial_that_tells_no_height_or_a_doubtful_one_is_told_on_its_line(nora: Path) -> None:
    trials = [
        {"flight": "0.50 s"},
        {"left_share": 0.5},
        {"rise_by_impulse": "40 cm"},
        {"rise_by_impulse": "40 cm", "doubt": "impulse and flight differ"},
    ]
    file = AthleteFile(str(nora))
    nora.write_bytes(file.with_tests([{**JUMP, "trials": trials[::2]}]))
    assert not [one for one in athlete_findings(nora) if one.code in ("no-height", "platform-doubt")]
    nora.write_bytes(file.with_tests([{**JUMP, "trials": [trials[0], trials[3]]}]))
    [doubt] = [one for one in athlete_findings(nora) if one.code == "platform-doubt"]
    assert (doubt.level, doubt.message) == ("warning", "impulse and flight differ")
    for jump, given in (("countermovement", trials[1]), ("drop", trials[2])):
        with pytest.raises(UserError) as refused:
            file.with_tests([{**JUMP, "jump": jump, "drop": "30 cm", "trials": [trials[0], given]}])
        assert "no-height" in {one.code for one in refused.value.findings}


def athlete_findings(path: Path) -> list[Any]:
    return list(then(load_bytes(path.read_bytes(), str(path), ("athlete/1",)), athlete_sense).findings)  # type: ignore[arg-type]
