"""The manual of the rules, made from the rules themselves: each sentence, a template's numbers, and its source."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from planner.domain.template import Template
from planner.report.terminal import wrap
from planner.rules.rule import Rule
from planner.units import counted


def rules_text(rules: Sequence[Rule], template: Template) -> str:
    """All rules, hard ones first, each with its sentence, the template's numbers, its unit and its source."""
    hard, soft = [rule for rule in rules if rule.hard], [rule for rule in rules if not rule.hard]
    parts = []
    if hard:
        head = "Every block keeps them; a block that breaks one is refused."
        parts += ["HARD RULES\n" + wrap(head), *(rule_text(rule, template) for rule in hard)]
    if soft:
        head = "Weekly ranges that a block keeps as near as it can; what is over or under costs points and is listed."
        parts += ["AIMS\n" + wrap(head), *(rule_text(rule, template) for rule in soft)]
    return "\n\n".join(parts) + "\n"


def rule_text(rule: Rule, template: Template) -> str:
    """One rule: id and title, then indented its sentence, the template's numbers, unit, price and source."""
    lines, figures = [f"{rule.id}: {rule.title}", wrap(rule.says, "  ")], rule.figures(template)
    if figures:
        lines.append(wrap(f"{template.name}: {figures}", "  "))
    counted = f"{'Hard' if rule.hard else 'An aim'}; counted in {rule.unit}{_price(rule.price(template))}."
    return "\n".join([*lines, wrap(f"{counted} Source: {rule.source}.", "  ")])


def rule_json(rule: Rule, template: Template) -> dict[str, Any]:
    return {
        "id": rule.id,
        "title": rule.title,
        "sentence": rule.says,
        "template": template.id,
        "figures": rule.figures(template),
        "source": rule.source,
        "unit": rule.unit,
        "hard": rule.hard,
        "price": rule.price(template),
    }


def _price(price: dict[str, int]) -> str:
    """The price of a miss, as a clause with its semicolon: '; one contact missed costs 1 point'."""
    costs = [f"one {unit} missed costs {counted(points, 'point')}" for unit, points in price.items()]
    return f"; {', '.join(costs)}" if costs else ""
