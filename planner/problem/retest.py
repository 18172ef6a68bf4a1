"""The test that closes the block, as a movement: the target jump."""

from __future__ import annotations

from dataclasses import replace

from planner.domain.athlete import Athlete
from planner.domain.base import Tag
from planner.domain.movement import Dose, Jump, Movement
from planner.domain.movement_library import Library
from planner.domain.template import Template
from planner.domain.terms import TIERS, Joint
from planner.problem.model import RETEST, Dosage


def retest_movement(athlete: Athlete, library: Library) -> Movement:
    """The target jump under its own id, with the stress tags of the library's most intense such jump.

    Without one in the library, ankle and knee get medium tags: common practice, no source. How long it takes is set by
    the template (``test_day``).
    """
    off_run_up = athlete.approach.steps > 0
    one_leg = athlete.take_off != "two-leg"
    like = _most_like(library, off_run_up=off_run_up, one_leg=one_leg)
    stress: dict[Joint, Tag] = dict(like.stress) if like else {"achilles-ankle": 2, "patellar-knee": 2}
    run_up = f"off {athlete.approach.steps} steps" if off_run_up else "from a stand"
    return Movement.model_construct(
        id=RETEST,
        name=f"Test jump {run_up}, {'one leg' if one_leg else 'two legs'}",
        kind="jump",
        patterns=(),
        part="approach-jump" if off_run_up else "jump",
        qualities={},
        stress=stress,
        legs="one" if one_leg else "both",
        jump=Jump.model_construct(
            direction="vertical",
            approach="run-up" if off_run_up else "standing",
            tier=like.jump.tier if like and like.jump else "medium",
            contacts_per_rep=1,
            effort_percent=100,
            take_off_leg_only=one_leg,
            drop=None,
            height=None,
            rebound=False,
        ),
        sprint=None,
        level="novice",
        dose=Dose.model_construct(scheme=RETEST, load="none", set_time=0.0, rest=0.0),
        cues=("Same warm-up, method and time of day as the first test.",),
        cautions=(),
        source="the athlete's own target",
    )


def _most_like(library: Library, *, off_run_up: bool, one_leg: bool) -> Movement | None:
    approach = "run-up" if off_run_up else "standing"
    fitting = [
        m
        for m in library
        if m.jump is not None
        and m.jump.direction == "vertical"
        and m.jump.approach == approach
        and m.jump.effort_percent == 100
        and m.jump.drop is None
        and (m.legs == "both") is not one_leg
        and not m.equipment
    ]
    return max(fitting, key=lambda m: (TIERS.index(m.jump.tier) if m.jump else 0, m.id), default=None)


def test_warm_up_minutes(template: Template) -> int:
    return max(shape.warm_up_minutes for shape in template.shapes)


def least_test_seconds(template: Template) -> int:
    """Its warm-up and jumps, each with its rest; ``test_day.minutes`` has time for measuring and talking too."""
    plan = template.test_day
    jumps = plan.practice_jumps + plan.counted_jumps
    return 60 * test_warm_up_minutes(template) + jumps * (plan.jump_s + plan.rest_s)


test_warm_up_minutes.__test__ = False  # type: ignore[attr-defined]  # not a pytest test


def retest_dosage(per_jump: Dosage, template: Template) -> Dosage:
    """Fixed sets: one for each practice jump and each counted jump, each with its rest."""
    plan = template.test_day
    jumps = plan.practice_jumps + plan.counted_jumps
    return replace(per_jump, low_sets=jumps, high_sets=jumps, set_seconds=plan.jump_s + plan.rest_s)
