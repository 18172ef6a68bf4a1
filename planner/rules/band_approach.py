"""Maximal approach jumps aim at their weekly range."""

from __future__ import annotations

from planner.domain.template import Template
from planner.rules.band_rule import BandRule
from planner.rules.currencies import APPROACH
from planner.rules.figure_words import band_width, full_week, taper_aim, week_by_week


class BandApproach(BandRule):
    id = "band-approach"
    title = "Maximal approach jumps in their weekly range"
    says = (
        "Maximal approach jumps are part of the high tier and build from week to week; for a standing jump there are "
        "none."
    )
    source = "the template; common practice, no source"
    unit = "contacts"
    currencies = (APPROACH,)

    def figures(self, template: Template) -> str:
        aims = week_by_week(template, lambda week: week.approach)
        width = band_width(template, template.band_width.least_approach, "contact")
        return f"Week by week {full_week(template)}: {aims}; {width}{taper_aim(template)}."
