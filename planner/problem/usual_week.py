"""The template's reference week for one athlete before the emphasis, which the tilts of a gap change."""

from __future__ import annotations

import datetime

from planner.domain.athlete import Athlete
from planner.domain.template import Template
from planner.domain.terms import Quality
from planner.problem.build import day_plan, served_level
from planner.problem.calendar import first_start


def usual_week_sets(athlete: Athlete, template: Template, start: datetime.date | None = None) -> dict[Quality, float]:
    """Working sets per quality of the reference week, at the athlete's level and number of training days.

    Raises UserError if the template does not serve the level or needs more training days.
    """
    is_minor = athlete.age_years(start or first_start(athlete)) < template.youth.under_years
    level = served_level(athlete, template, is_minor)
    factor = day_plan(athlete, template, level).factor
    sets = template.levels[level].weeks[template.reference_week - 1].sets
    return {quality: factor * value for quality, value in sets.items()}
