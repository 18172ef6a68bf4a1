"""A file whose shape is right may still not make sense: each such thing is told on its line, with the other place."""

from __future__ import annotations

import pathlib
from typing import Any

import pytest

from files.snippets import ATHLETE, changed, findings_of, places
from planner.domain.template import Template
from planner.files.document import Loaded
from planner.files.dump import plain_to_yaml
from planner.files.load import load_bytes, load_template, then
from planner.files.sense.template_sense import template_sense
from planner.files.tree import Path

ROOT = pathlib.Path(__file__).parents[2]

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
    ("a century too early", "2002-03-04", "1902-03-04", "age", 0),
    ("a year old", "2002-03-04", "2023-12-04", "age", 0),
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


# what is wrong, the field and its new value, the code
TEMPLATE_CASES = [
    ("reference week past the end", ("reference_week",), 52, "reference-week"),
    ("reference week an easy one", ("reference_week",), 4, "reference-week"),
    ("unknown shape", ("day_plans", 0, "shapes", 0), "no-such-shape", "unknown-shape"),
    ("unknown shape of the test week", ("day_plans", 0, "test_week", 0), "no-such-shape", "unknown-shape"),
    ("range the wrong way round", ("deload", "low"), 0.99, "range-reversed"),
    ("sets the wrong way round", ("schemes", "main-lift", "weeks", 1, "sets"), [5, 3], "range-reversed"),
    ("more items than the parts have", ("shapes", 0, "items"), [19, 20], "parts-and-items"),
    ("fewer shapes than days", ("day_plans", 0, "days"), 6, "shapes-and-days"),
    ("pain steps unsorted", ("pain", 1, "up_to"), 0, "pain-order"),
    ("more high than all", ("levels", "advanced", "weeks", 0, "contacts"), 1, "tiers-above-contacts"),
    ("more approach than high", ("levels", "advanced", "weeks", 0, "approach"), 1000, "approach-above-high"),
]


def _template(path: Path = (), value: object = None) -> Loaded[Template]:
    """The shipped eight-week template, written out again with one field changed."""
    data: Any = load_template(ROOT / "templates/blocks/eight-week.yaml").require().model_dump()
    holder = data
    for step in path[:-1]:
        holder[step] = list(holder[step]) if isinstance(holder[step], tuple) else holder[step]
        holder = holder[step]
    if path:
        holder[path[-1]] = value
    loaded: Loaded[Template] = load_bytes(plain_to_yaml(data).encode(), "mine.yaml")  # type: ignore[assignment]
    return then(loaded, template_sense)


@pytest.mark.parametrize(("path", "value", "code"), [c[1:] for c in TEMPLATE_CASES], ids=[c[0] for c in TEMPLATE_CASES])
def test_template(path: Path, value: object, code: str) -> None:
    assert _template().findings == ()
    loaded = _template(path, value)
    assert loaded.value is None
    place = "shapes" if code == "shapes-and-days" else path[-1]
    assert (code, loaded.place((*path[:-1], place)).line) in [(found.code, found.line) for found in loaded.findings]
    assert {found.code for found in loaded.findings} == {code}


def test_a_week_too_few_is_told_for_every_list_that_no_longer_fits() -> None:
    template = _template().require()
    found = _template(("weeks",), [week.model_dump() for week in template.weeks[:-1]]).findings
    assert {finding.code for finding in found} == {"weeks-differ"}
    assert len(found) == len(template.levels) + len(template.schemes)


def test_a_role_without_figures() -> None:
    template = _template().require()
    found = _template(("floors", "sets"), {"build": 0.5, "intensify": 0.5, "deload": 0.2}).findings
    assert [finding.code for finding in found] == ["role-missing"]
    assert "'taper'" in found[0].message and "taper" in {week.role for week in template.weeks}


def test_every_shipped_template_makes_sense() -> None:
    paths = sorted((ROOT / "templates/blocks").glob("*.yaml"))
    assert paths
    for path in paths:
        assert load_template(path).findings == ()
