"""Working sets per quality aim at their weekly range."""

from __future__ import annotations

from collections.abc import Callable

from planner.domain.template import LevelPlan, Template
from planner.domain.terms import LIFT_QUALITIES, QUALITY_NAMES, Quality
from planner.rules.band_rule import BandRule
from planner.rules.currencies import QUALITY_SETS
from planner.rules.figure_words import band_width, each_level, full_week, listed, over_load_weeks, percent, taper_aim

_ROOM = (
    "In load weeks a quality that is short beyond its error begins at its aim, and one that makes room for it ends a "
    "quarter set over its share without the emphasis."
)


class BandSets(BandRule):
    id = "band-sets"
    title = "Working sets in their weekly range"
    says = (
        "Each week's working sets of each quality stay in the range set by template, level, training days and emphasis."
    )
    source = "the template; common practice, no source"
    unit = "sets"
    currencies = QUALITY_SETS
    row_units = 4

    def figures(self, template: Template) -> str:
        aimed = [
            f"{QUALITY_NAMES[quality]} {each_level(template, _load_weeks(template, quality))}"
            for quality in LIFT_QUALITIES
        ]
        width = band_width(template, template.band_width.least_sets, "set")
        share = percent(template.maintenance_share)
        kept = f"strength that is already enough is kept, at {share} after the first load phase"
        aims = f"{'; '.join(aimed)}; {width}{taper_aim(template)}"
        credit = listed(f"{quarters / 4:g}" for quarters in template.counting.quality_quarters)
        counted = f"A set counts {credit} for tags 1, 2 and 3"
        return f"Load weeks {full_week(template)} aim at, in sets: {aims}; {kept}. {_ROOM} {counted}."


def _load_weeks(template: Template, quality: Quality) -> Callable[[LevelPlan], str]:
    return over_load_weeks(template, lambda week: week.sets.get(quality, 0.0))
