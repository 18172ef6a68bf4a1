"""A file whose shape is right may still not make sense: each such thing is told on its line, with the other place."""

from __future__ import annotations

from pathlib import Path

import pytest

from files.snippets import ATHLETE, changed, findings_of, places
from planner.domain.template import Template
from planner.files.document import Loaded
from planner.files.load import load_bytes, load_template, then
from planner.files.sense.template import template_sense

ROOT = Path(__file__).parents[2]
TEMPLATE = (ROOT / "templates/blocks/eight-week.yaml").read_text("utf-8")

ATHLETE_CASES = [
    ("target below standing reach", "touch: 3.00 m", "touch: 2.30 m", "touch-below-reach", 0),
    ("trial below standing reach", "[2.90 m, 2.91 m]", "[2.90 m, 2.30 m]", "touch-below-reach", 0),
    (
        "reach below stature",
        "standing_reach: 2.35 m\ntip_toe",
        "standing_reach: 1.75 m\ntip_toe",
        "reach-below-stature",
        0,
    ),
    ("tip-toe below flat", "tip_toe_reach: 2.46 m", "tip_toe_reach: 2.34 m", "tip-toe-below-standing", 0),
    ("touch and rise", "  touch: 3.00 m", "  touch: 3.00 m\n  rise: 60 cm", "target-not-one", -1),
    ("neither touch nor rise", "  touch: 3.00 m\n", "", "target-not-one", -1),
    ("touch by flight time", "  method: touch", "  method: flight-time", "target-method", 0),
    ("born after the test", "2002-03-04", "2025-03-04", "born-after-test", 0),
    ("the same training day twice", "day: thu", "day: mon", "day-twice", 0),
    (
        "nothing left to plan",
        "minutes: 75, own_work_minutes: 15",
        "minutes: 75, own_work_minutes: 75",
        "no-minutes-left",
        0,
    ),
    ("practice on a day and a date", "day: tue,", "day: tue, date: 2025-03-04,", "fixture-day-or-date", 0),
    ("practice on no day", "{day: tue, minutes", "{minutes", "fixture-day-or-date", 0),
    ("pin on a day without training", "landing: h", "pins: [{movement: a, day: fri}]\nlanding: h", "pin-day", 0),
    ("pinned and banned", "landing: h", "bans: [a]\npins: [{movement: a}]\nlanding: h", "pinned-and-banned", 1),
    ("joint twice", "landing: h", "joints: [{joint: hip-groin}, {joint: hip-groin}]\nlanding: h", "joint-twice", 0),
    (
        "allowance of nothing",
        "landing: h",
        "allow: [{reason: why not, date: 2025-01-01}]\nlanding: h",
        "allowance-of-what",
        0,
    ),
    (
        "test without a result",
        "  - {kind: lift",
        "  - {kind: heel-raise, date: 2025-03-01, form: free}\n  - {kind: lift",
        "no-result",
        0,
    ),
]


@pytest.mark.parametrize(
    ("old", "new", "code", "offset"), [c[1:] for c in ATHLETE_CASES], ids=[c[0] for c in ATHLETE_CASES]
)
def test_athlete(old: str, new: str, code: str, offset: int) -> None:
    text, line = changed(old, new)
    assert places(text) == [(code, line + offset)]


def test_two_places_are_told() -> None:
    text, line = changed("day: thu", "day: mon")
    (finding,) = findings_of(text)
    assert finding.other == f"nora.yaml:{line - 1}"


def test_no_test_of_height() -> None:
    start = ATHLETE.index("  - kind: touch")
    text = ATHLETE[:start] + ATHLETE[ATHLETE.index("  - {kind: lift") :]
    assert places(text) == [("no-height-test", ATHLETE[:start].count("\n"))]


def test_another_method_than_the_targets_is_a_warning_and_keeps_the_athlete() -> None:
    text, _ = changed("  touch: 3.00 m\n  method: touch", "  rise: 60 cm\n  method: flight-time")
    loaded = load_bytes(text.encode(), "nora.yaml")
    (finding,) = findings_of(text)
    assert (finding.code, finding.level) == ("target-method-untested", "warning")
    assert loaded.value is not None


def test_measured_values_that_touch_the_limit_make_sense() -> None:
    """A touch exactly at standing reach is no error: the arithmetic of units must not make it one."""
    text, _ = changed("touch: 3.00 m", "touch: 235 cm")
    assert places(text) == []


TEMPLATE_CASES = [
    ("reference week past the end", "reference_week: 7", "reference_week: 9", "reference-week"),
    ("reference week an easy one", "reference_week: 7", "reference_week: 4", "reference-week"),
    ("unknown shape", "test_week: [last-hard-day]", "test_week: [last-hardday]", "unknown-shape"),
    ("range the wrong way round", "deload: {low: 0.3, high: 0.6}", "deload: {low: 0.6, high: 0.3}", "range-reversed"),
    ("fewer shapes than days", "{days: 2, factor", "{days: 5, factor", "shapes-and-days"),
    ("pain steps unsorted", "up_to: 5", "up_to: 1", "pain-order"),
]


def _template_places(text: str) -> list[tuple[str, int]]:
    loaded: Loaded[Template] = load_bytes(text.encode(), "mine.yaml")  # type: ignore[assignment]
    return [(finding.code, finding.line) for finding in then(loaded, template_sense).findings]


@pytest.mark.parametrize(("old", "new", "code"), [c[1:] for c in TEMPLATE_CASES], ids=[c[0] for c in TEMPLATE_CASES])
def test_template(old: str, new: str, code: str) -> None:
    text, line = changed(old, new, TEMPLATE)
    assert _template_places(text) == [(code, line)]


def test_a_week_too_few_is_told_for_every_list_that_no_longer_fits() -> None:
    loaded = load_template(ROOT / "templates/blocks/eight-week.yaml").require()
    text, _ = changed("- {phase: taper, role: taper}\n", "", TEMPLATE)
    found = _template_places(text)
    assert {code for code, _ in found} == {"weeks-differ"}
    assert len(found) == len(loaded.levels) + len(loaded.schemes)


def test_every_shipped_template_makes_sense() -> None:
    paths = sorted((ROOT / "templates/blocks").glob("*.yaml"))
    assert paths
    for path in paths:
        assert load_template(path).findings == ()
