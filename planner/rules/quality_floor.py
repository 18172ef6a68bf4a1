"""No quality falls below its floor, whatever the emphasis."""

from __future__ import annotations

from planner.domain.template import Template
from planner.domain.template_prices import ChangePrices
from planner.rules.currencies import QUALITY_SETS
from planner.rules.figure_words import each_role, percent
from planner.rules.floor_rule import FloorRule


class QualityFloor(FloorRule):
    id = "quality-floor"
    title = "A floor under every quality"
    says = (
        "In every week, each quality keeps at least the template's share of its working sets before the emphasis, or "
        "what the week aims at, where that is less."
    )
    source = "common practice, no source"
    unit = "sets"
    row_units = 4
    currencies = QUALITY_SETS

    def figures(self, template: Template) -> str:
        shares = {role: percent(share) for role, share in template.floors.sets.items()}
        return f"At least {each_role(template, shares)}."

    def step_price(self, prices: ChangePrices) -> int:
        return prices.quarter_set
