"""Shipped templates with some of their weeks left out, so that hundreds of drawn blocks are solved in minutes."""

from __future__ import annotations

from collections.abc import Sequence

from planner.domain.template import LevelPlan, Scheme, Template
from planner.domain.terms import LOAD_ROLES


def shortened(template: Template, weeks: Sequence[int]) -> Template:
    """The template with these of its weeks alone, in order; the last load week left is what a taper is measured by."""
    kept = tuple(weeks)
    if kept == tuple(range(1, len(template.weeks) + 1)):
        return template
    plans = tuple(template.weeks[week - 1] for week in kept)
    load = [number for number, plan in enumerate(plans, start=1) if plan.role in LOAD_ROLES]
    return template.model_copy(
        update={
            "weeks": plans,
            "reference_week": load[-1],
            "levels": {name: _level(level, kept) for name, level in template.levels.items()},
            "schemes": {name: _scheme(scheme, kept) for name, scheme in template.schemes.items()},
        }
    )


def _level(level: LevelPlan, weeks: Sequence[int]) -> LevelPlan:
    return level.model_copy(update={"weeks": tuple(level.weeks[week - 1] for week in weeks)})


def _scheme(scheme: Scheme, weeks: Sequence[int]) -> Scheme:
    return scheme.model_copy(update={"weeks": tuple(scheme.weeks[week - 1] for week in weeks)})
