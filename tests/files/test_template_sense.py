"""What a template says as a whole: the whole sentence at the field at fault, and silence right at the limit."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from typing import Any

import pytest

from files.test_sense import _template
from planner.domain.template import Template
from planner.files.document import Loaded
from planner.files.load import then
from planner.files.sense.template_sense import template_sense
from planner.files.tree import Path

ADVANCED: Path = ("levels", "advanced", "weeks", 0)
shipped = cache(_template)


def changed(path: Path, value: Any) -> Loaded[Template]:
    """The shipped eight-week template with one field changed, each line where it was.

    Its week 4 is a deload, week 8 the taper; an advanced athlete's first week has 204 contacts, 55 and 10 of them
    medium and high, 4 off an approach.
    """
    data: Any = shipped().require().model_dump()
    holder = data
    for step in path[:-1]:
        holder[step] = list(holder[step]) if isinstance(holder[step], tuple) else holder[step]
        holder = holder[step]
    holder[path[-1]] = value
    return then(replace(shipped(), value=Template.model_validate(data)), template_sense)


@pytest.mark.parametrize(
    ("path", "value"),
    [
        (("reference_week",), 1),
        ((*ADVANCED, "contacts"), 65),
        ((*ADVANCED, "approach"), 10),
        (("deload", "low"), 0.6),
        (("taper", "low"), 0.59),
        (("schemes", "main-lift", "weeks", 1, "sets"), [3, 3]),
        (("shapes", 0, "items"), [9, 9]),  # its parts take 3 to 9
        (("shapes", 0, "items"), [2, 3]),
        (("shapes", 0, "parts", 0, "items"), [1, 1]),
        (("pain", 1, "up_to"), 1),
    ],
)
def test_what_is_just_right_is_not_told(path: Path, value: object) -> None:
    assert changed(path, value).findings == ()


CASES: list[tuple[Path, Any, str, Path, str, str]] = [
    (
        ("reference_week",),
        9,
        "reference-week",
        ("reference_week",),
        "reference_week: 9 is after the last week, 8",
        "write 1 to 8",
    ),
    (
        ("reference_week",),
        8,
        "reference-week",
        ("reference_week",),
        "reference_week: week 8 is a taper week",
        "name a week of role build or intensify",
    ),
    (
        ("reference_week",),
        4,
        "reference-week",
        ("reference_week",),
        "reference_week: week 4 is a deload week",
        "name a week of role build or intensify",
    ),
    (
        (*ADVANCED, "contacts"),
        64,
        "tiers-above-contacts",
        (*ADVANCED, "contacts"),
        "medium 55 and high 10 are more than the 64 contacts in all",
        "medium and high are counted among contacts",
    ),
    (
        (*ADVANCED, "approach"),
        11,
        "approach-above-high",
        (*ADVANCED, "approach"),
        "approach 11 is more than high 10",
        "maximal approach jumps are counted among high",
    ),
    (
        ("taper", "low"),
        0.6,
        "range-reversed",
        ("taper", "low"),
        "the range goes from 0.6 down to 0.59",
        "write the smaller number first",
    ),
    (
        ("deload", "low"),
        0.61,
        "range-reversed",
        ("deload", "low"),
        "the range goes from 0.61 down to 0.6",
        "write the smaller number first",
    ),
    (
        ("schemes", "main-lift", "weeks", 1, "sets"),
        [4, 3],
        "range-reversed",
        ("schemes", "main-lift", "weeks", 1, "sets"),
        "the range goes from 4 down to 3",
        "write the smaller number first",
    ),
    (
        ("shapes", 0, "items"),
        [9, 8],
        "range-reversed",
        ("shapes", 0, "items"),
        "the range goes from 9 down to 8",
        "write the smaller number first",
    ),
    (
        ("shapes", 0, "parts", 1, "items"),
        [2, 1],
        "range-reversed",
        ("shapes", 0, "parts", 1, "items"),
        "the range goes from 2 down to 1",
        "write the smaller number first",
    ),
    (
        ("shapes", 0, "items"),
        [12, 13],
        "parts-and-items",
        ("shapes", 0, "items"),
        "the parts of 'speed-and-power' take 3 to 11 movements, its items say 12 to 13",
        "make the two overlap",
    ),
    (
        ("shapes", 0, "items"),
        [1, 2],
        "parts-and-items",
        ("shapes", 0, "items"),
        "the parts of 'speed-and-power' take 3 to 11 movements, its items say 1 to 2",
        "make the two overlap",
    ),
    (
        ("day_plans", 1, "shapes"),
        ["speed-and-power", "hinge-and-one-leg"],
        "shapes-and-days",
        ("day_plans", 1, "shapes"),
        "3 days and 2 session shapes",
        "write one shape a day",
    ),
    (
        ("pain", 1, "up_to"),
        0,
        "pain-order",
        ("pain", 1, "up_to"),
        "up_to 0 does not rise above the 0 before it",
        "sort the steps, lowest first",
    ),
    (
        ("day_plans", 0, "test_week", 1),
        "short-strenght",
        "unknown-shape",
        ("day_plans", 0, "test_week", 1),
        "'short-strenght' is not a session shape of this template",
        "did you mean 'short-strength'?",
    ),
    (
        ("required_patterns",),
        {"build": [], "intensify": [], "deload": []},
        "role-missing",
        ("required_patterns",),
        "the block has a week of role 'taper', but there is no line for it here",
        "add a line taper:",
    ),
    (
        ("floors", "contacts"),
        {"build": 0.5, "intensify": 0.5, "taper": 0.2},
        "role-missing",
        ("floors", "contacts"),
        "the block has a week of role 'deload', but there is no line for it here",
        "add a line deload:",
    ),
]


@pytest.mark.parametrize(("path", "value", "code", "at", "message", "hint"), CASES)
def test_what_does_not_fit_is_told_whole(path: Path, value: Any, code: str, at: Path, message: str, hint: str) -> None:
    loaded = changed(path, value)
    (found,) = loaded.findings
    assert (found.code, found.message, found.hint) == (code, message, hint)
    assert found.line in (loaded.place(at).line, loaded.place(at, on_key=True).line)


@pytest.mark.parametrize(("count", "hint"), [(7, "add 1"), (10, "delete 2")])
def test_a_list_of_another_length_than_the_block_says_what_to_do(count: int, hint: str) -> None:
    weeks = (shipped().require().schemes["main-lift"].model_dump()["weeks"] * 2)[:count]
    loaded = changed(("schemes", "main-lift", "weeks"), weeks)
    (found,) = loaded.findings
    assert found.line == loaded.place(("schemes", "main-lift", "weeks"), on_key=True).line
    assert (found.message, found.hint) == (f"scheme main-lift has {count} weeks, the block has 8", hint)
    levels = shipped().require().levels["novice"].model_dump()["weeks"]
    (found,) = changed(("levels", "novice", "weeks"), levels[:-1]).findings
    assert found.message == "level novice has 7 weeks, the block has 8"


def test_a_shape_that_is_written_twice_is_told_with_the_first_place() -> None:
    loaded = changed(("shapes", 3, "id"), "speed-and-power")
    (found,) = [one for one in loaded.findings if one.code == "duplicate-id"]
    first, second = (loaded.place(("shapes", index, "id")) for index in (0, 3))
    assert (found.line, found.other) == (second.line, str(first))
    assert found.message == f"the session shape 'speed-and-power' is written twice, first on line {first.line}"


@pytest.mark.parametrize(
    ("levels", "told"), [(["advanced"], "advanced"), (["novice", "advanced"], "advanced"), ([], "inter")]
)
def test_days_planned_twice_for_a_level_are_told_with_the_first_place(levels: list[str], told: str) -> None:
    plans = [one.model_dump() for one in shipped().require().day_plans]
    loaded = changed(("day_plans",), [*plans[:3], plans[3], {**plans[1], "levels": levels}, plans[5]])
    (found,) = loaded.findings
    first, second = (loaded.place(("day_plans", index, "days")) for index in (1, 4))
    assert (found.line, found.other) == (second.line, str(first))
    assert found.message.startswith(f"3 days are planned twice for the level {told}")
    assert found.message.endswith(f", first on line {first.line}")
