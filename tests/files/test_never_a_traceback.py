"""Whatever a file holds, loading it ends in a value or in findings with a line, never in a traceback."""

from __future__ import annotations

import random
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from files.snippets import ATHLETE
from planner.domain.findings import has_errors
from planner.files.document import Loaded
from planner.files.load import load_bytes, then
from planner.files.sense.athlete_sense import athlete_sense
from planner.files.sense.template_sense import template_sense
from planner.files.values import ValueProblem, resolve

ROOT = Path(__file__).parents[2]
SHIPPED = sorted([*(ROOT / "exercise_library").glob("*.yaml"), *(ROOT / "templates").rglob("*.yaml")])
FIXED = settings(max_examples=300, deadline=None, derandomize=True)
YAML_LIKE = st.text("ab1:-?,[]{}#&*!|>'\"%@`<~. \n\t\r\u00e9\x00\ufeff", max_size=60)


def _holds(loaded: Loaded[object], raw: bytes) -> None:
    """A value, or an error with its place; every place inside the file, or in the limits that a template names."""
    assert (loaded.value is None) == has_errors(list(loaded.findings))
    lines = raw.count(b"\n") + raw.count(b"\r") + raw.count(b"\xe2\x80") + raw.count(b"\xc2\x85") + 2
    for finding in loaded.findings:
        assert finding.message and "\n" not in finding.message
        if finding.path == "templates/limits/standard.yaml" and raw.startswith(b"file: template"):
            continue  # what the template changed of a part of it does not go with the rest
        assert finding.path == "any.yaml" and 0 <= finding.line <= lines


def _load(raw: bytes) -> Loaded[object]:
    loaded: Loaded[object] = load_bytes(raw, "any.yaml")  # type: ignore[assignment]
    if raw.startswith(b"file: template"):
        return then(loaded, template_sense)  # type: ignore[arg-type]
    return then(loaded, athlete_sense) if raw.startswith(b"file: athlete") else loaded  # type: ignore[arg-type]


@FIXED
@given(st.binary(max_size=80))
def test_any_bytes(raw: bytes) -> None:
    _holds(_load(raw), raw)


@FIXED
@given(st.one_of(st.text(max_size=60), YAML_LIKE))
def test_any_text(text: str) -> None:
    for raw in (
        text.encode(),
        b"file: athlete/1\n" + text.encode(),
        b"file: movements/1\nmovements:\n" + text.encode(),
    ):
        _holds(_load(raw), raw)


@FIXED
@given(st.integers(0, len(ATHLETE)), st.integers(0, 12), YAML_LIKE)
def test_an_athletes_file_with_a_part_overwritten(at: int, length: int, text: str) -> None:
    raw = (ATHLETE[:at] + text + ATHLETE[at + length :]).encode()
    _holds(_load(raw), raw)


@FIXED
@given(st.text(min_size=1, max_size=20))
def test_any_scalar(text: str) -> None:
    try:
        value = resolve(text)
    except ValueProblem as problem:
        assert problem.code in ("odd-number", "huge-number", "not-finite")
    else:
        assert not isinstance(value, str) or value == text


def _mutations(lines: list[str], dice: random.Random) -> list[tuple[str, str]]:
    """Ways to break one line of a file: named, with the new text."""
    at = dice.randrange(len(lines))
    line, column = lines[at], dice.randrange(len(lines[at]) + 1)
    ways = {
        "deleted": [],
        "written twice": [line, line],
        "a letter lost": [line[:column] + line[column + 1 :]],
        "a letter wrong": [line[:column] + "x" + line[column + 1 :]],
        "indented": ["  " + line],
        "cut off": [line[:column]],
        "a colon more": [line[:column] + ": " + line[column:]],
        "a quote more": [line[:column] + "'" + line[column:]],
        "a tab first": ["\t" + line],
    }
    return [(way, "\n".join([*lines[:at], *new, *lines[at + 1 :]])) for way, new in ways.items()]


@pytest.mark.parametrize("path", SHIPPED, ids=[path.stem for path in SHIPPED])
def test_shipped_files_with_a_line_broken(path: Path) -> None:
    dice = random.Random(path.name)
    lines = path.read_text("utf-8").split("\n")
    if len(lines) > 120:  # a long file takes long to read: break its head, which holds every kind of field
        lines = lines[:120]
    for _ in range(3):
        for _way, text in _mutations(lines, dice):
            raw = text.encode()
            _holds(_load(raw), raw)


@pytest.mark.long
@pytest.mark.parametrize("path", SHIPPED, ids=[path.stem for path in SHIPPED])
def test_shipped_files_with_any_line_broken(path: Path) -> None:
    dice = random.Random(path.name)
    lines = path.read_text("utf-8").split("\n")
    for _ in range(100):
        for _way, text in _mutations(lines, dice):
            raw = text.encode()
            _holds(_load(raw), raw)


def test_every_shipped_file_loads_without_a_finding() -> None:
    assert SHIPPED
    for path in SHIPPED:
        assert load_bytes(path.read_bytes(), path.name).findings == ()
