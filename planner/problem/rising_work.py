"""How work rises that no wave's percentage leads: reps of a novice and of work without a load, a novice's maximum."""

from __future__ import annotations

from collections.abc import Sequence

from planner.domain.movement import Movement
from planner.domain.template import SchemeWeek, Template
from planner.domain.terms import LOAD_ROLES
from planner.problem.model import Problem


def own_week(template: Template, movement: Movement, week: int, is_novice: bool) -> SchemeWeek:
    """What the movement's wave asks in ``week``, with the reps of work without a load, or those of a novice.

    Without a load nobody can tell a reserve: reps rise instead, from the wave's first load week on. A novice's reps do
    not fall within a phase, since no tested percentage makes up for them.
    """
    waves = template.schemes[movement.dose.scheme].weeks
    plan = waves[week - 1]
    if template.progress is None or plan.reserve is None or plan.reps is None:
        return plan
    if movement.dose.load == "none":
        return plan.model_copy(update={"reps": _unloaded_reps(template, waves, week), "reserve": None})
    if is_novice and template.weeks[week - 1].role in LOAD_ROLES:
        return plan.model_copy(update={"reps": _most_so_far(template, waves, week), "percent": None})
    return plan


def _most_so_far(template: Template, waves: Sequence[SchemeWeek], week: int) -> int:
    """The most reps of the wave in a load week of this phase, up to this week."""
    phase = template.weeks[week - 1].phase
    so_far = [one for one in _load_weeks(template) if one <= week and template.weeks[one - 1].phase == phase]
    return max(waves[one - 1].reps or 0 for one in so_far)


def _unloaded_reps(template: Template, waves: Sequence[SchemeWeek], week: int) -> int | None:
    """A rep or more above the week before, up to the template's most; the wave's own in an easy week and the taper."""
    limits, own = template.progress, waves[week - 1].reps
    if limits is None or template.weeks[week - 1].role not in LOAD_ROLES:
        return own
    first = waves[_load_weeks(template)[0] - 1].reps or own or 0
    return max(first, min(limits.most_unloaded_reps, first + limits.unloaded_more_reps * _before(template, week)))


def _load_weeks(template: Template) -> list[int]:
    return [number for number, week in enumerate(template.weeks, start=1) if week.role in LOAD_ROLES]


def _before(template: Template, week: int) -> int:
    """How many load weeks come before this week."""
    return sum(one < week for one in _load_weeks(template))


def gains(problem: Problem) -> bool:
    """Whether this athlete's tested lifts are planned to gain from week to week: a novice's."""
    return problem.template.progress is not None and problem.athlete.level == "novice"


def planned_kg(problem: Problem, best_kg: float, week: int) -> float:
    """A tested maximum as it is planned for ``week``: raised a little each week since the first load week."""
    limits = problem.template.progress
    if limits is None or not gains(problem):
        return best_kg
    return best_kg * (1 + max(0, week - problem.load_weeks[0]) * limits.novice_gain_percent_a_week / 100)


def last_load_week(problem: Problem, week: int) -> int | None:
    """The load week that an easy week or the taper comes after; None in a load week, and before the first."""
    if week in problem.load_weeks:
        return None
    return max((one for one in problem.load_weeks if one < week), default=None)
