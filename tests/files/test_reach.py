"""How a template can use a movement, and why none can: the reason in words, on the line that is in the way."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from files.test_small_libraries import JUMP, ROOT, jump, library, lift
from planner.domain.movement import Movement
from planner.domain.template import Template
from planner.files.load import load_template
from planner.files.sense.reach import Use, reach_findings, use_by


@pytest.fixture(scope="module")
def template() -> Template:
    """A novice may do jumps up to the medium tier, the other levels all; its main lifts are squats and hinges."""
    return load_template(ROOT / "templates/blocks/eight-week.yaml").require()


def without_sets(template: Template, scheme: str, *weeks: int) -> Template:
    """The template without sets in these weeks (from 1) of a scheme."""
    given = template.schemes[scheme]
    changed = [
        week.model_copy(update={"sets": (0, 0)}) if number in weeks else week
        for number, week in enumerate(given.weeks, start=1)
    ]
    return template.model_copy(
        update={"schemes": {**template.schemes, scheme: given.model_copy(update={"weeks": tuple(changed)})}}
    )


def one(folder: Path, movement: dict[str, Any]) -> Movement:
    [found] = library(folder, movement).require()
    return found  # type: ignore[no-any-return]


def test_how_a_template_can_use_a_movement(tmp_path: Path, template: Template) -> None:
    squat = one(tmp_path, lift("a", patterns=["squat"], level="advanced"))
    use = use_by(squat, without_sets(template, "main-lift", 1, 4))
    assert use == Use(
        "eight-week",
        ("advanced",),
        (
            "speed-and-power",
            "approach-and-skill",
            "squat-and-speed-full",
            "jumps-and-squat",
            "jumps-and-squat-full",
            "last-jump-day",
            "last-hard-day",
            "last-hard-day-full",
            "last-jump-day-full",
        ),
        (2, 3, 5, 6, 7, 8),
    )
    hop = one(tmp_path, jump("a", level="novice", jump={**JUMP, "tier": "high"}))
    found = use_by(hop, template)
    assert isinstance(found, Use) and "speed-and-power" in found.shapes and "jumps-and-squat" not in found.shapes
    assert all(template.levels[level].highest_tier == "high" for level in found.levels)


HIGH = {**JUMP, "tier": "high"}
NEVER: list[tuple[dict[str, Any], str, str]] = [
    (lift("a", patterns=["squat"]), "no sets", "gives the scheme 'main-lift' no sets in any week"),
    (lift("a", patterns=["trunk"]), "", "has no session with a part 'main-lift' for it (patterns: trunk)"),
    (lift("a"), "", "has no session with a part 'main-lift' for it"),
    (
        lift("a", level="advanced", patterns=["squat"]),
        "novice",
        "has no level that may do a movement of level advanced",
    ),
    (
        jump("a", level="novice", jump=HIGH),
        "novice",
        "has no level that may do a movement of level novice and tier high",
    ),
    (jump("a", jump=HIGH), "low", "has no session of part 'jump' that takes its tier"),
]


@pytest.mark.parametrize(("movement", "change", "why"), NEVER)
def test_a_movement_that_no_template_can_plan_is_told_with_the_reason(
    tmp_path: Path, template: Template, movement: dict[str, Any], change: str, why: str
) -> None:
    changed = {
        "": template,
        "no sets": without_sets(template, "main-lift", *range(1, 9)),
        "novice": template.model_copy(update={"levels": {"novice": template.levels["novice"]}}),
        "low": template.model_copy(
            update={"shapes": tuple(shape for shape in template.shapes if shape.highest_tier != "high")}
        ),
    }[change]
    loaded = library(tmp_path, movement)
    (found,) = reach_findings(loaded, [changed])
    assert use_by(one(tmp_path, movement), changed) == why
    assert (found.code, found.level, found.message) == (
        "out-of-reach",
        "warning",
        f"no template can plan 'a': 'eight-week' {why}",
    )
    assert found.hint and found.source_line.strip().startswith("part:")
    named = [changed.model_copy(update={"id": name}) for name in "wxyz"]
    (found,) = reach_findings(loaded, named)
    assert found.message == "no template can plan 'a': " + "; ".join(f"'{name}' {why}" for name in "wxy")
    if change:
        assert reach_findings(loaded, [changed, template.model_copy(update={"id": "whole"})]) == []


def test_a_scheme_of_no_template_is_told_on_its_line(tmp_path: Path, template: Template) -> None:
    loaded = library(tmp_path, lift("a", patterns=["squat"], dose={"scheme": "mian-lift"}))
    (found,) = reach_findings(loaded, [template])
    assert found.message == "'mian-lift' is not a scheme of any template, so 'a' is never planned"
    assert (found.code, found.hint) == ("unknown-scheme", "did you mean 'main-lift'?")
    assert use_by(loaded.require()["a"], template) == "has no scheme 'mian-lift'"
    (found,) = reach_findings(library(tmp_path, lift("a", dose={"scheme": "zzz"})), [template])
    assert found.hint == "add it under schemes of the template"
    assert reach_findings(loaded, []) == []


def test_parts_that_no_session_of_a_day_takes_do_not_count(tmp_path: Path, template: Template) -> None:
    squat = one(tmp_path, lift("a", patterns=["squat"]))
    plans = tuple(plan for plan in template.day_plans if plan.days == 4 and "novice" not in plan.levels)
    use = use_by(squat, template.model_copy(update={"day_plans": plans}))
    assert isinstance(use, Use) and use.shapes == ("speed-and-power", "approach-and-skill", "last-hard-day")
    empty = [
        shape.model_copy(update={"parts": tuple(p.model_copy(update={"items": (0, 0)}) for p in shape.parts)})
        for shape in template.shapes
    ]
    assert "no session" in str(use_by(squat, template.model_copy(update={"shapes": tuple(empty)})))


def test_a_lift_without_patterns_is_told_which_to_add(tmp_path: Path, template: Template) -> None:
    loaded = library(tmp_path, lift("a"), lift("b", patterns=["squat"]))
    (found,) = reach_findings(loaded, [template])
    assert found.message == "'a' has no patterns, so no template can plan it as main-lift"
    assert found.hint == "add patterns: [squat], or what it is: squat"
