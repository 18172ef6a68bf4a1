"""Sprint efforts aim at their weekly range."""

from __future__ import annotations

from planner.domain.template import Template
from planner.rules.band_rule import BandRule
from planner.rules.currencies import SPRINTS
from planner.rules.figure_words import band_width, full_week, taper_aim, week_by_week


class BandSprints(BandRule):
    id = "band-sprints"
    title = "Sprint efforts in their weekly range"
    says = "Each week's sprint efforts stay in the range set by template, level, training days and emphasis."
    source = "the template, building well under Haugen et al. 2019, Sports Med Open 5:44, table 2"
    unit = "efforts"
    currencies = (SPRINTS,)

    def figures(self, template: Template) -> str:
        aims = week_by_week(template, lambda week: week.sprints)
        width = band_width(template, template.band_width.least_sprints, "effort")
        return f"Week by week {full_week(template)}: {aims}; {width}{taper_aim(template)}."
