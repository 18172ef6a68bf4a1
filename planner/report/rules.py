"""The manual of rules, from the rules themselves: what is held to, how it is counted, and where it comes from."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from planner.report.layout import wrap
from planner.rules.base import Rule


def rules_text(rules: Sequence[Rule]) -> str:
    """All rules, the hard ones first, each with its sentence, its unit and its source."""
    hard, soft = [rule for rule in rules if rule.hard], [rule for rule in rules if not rule.hard]
    parts = []
    if hard:
        parts += [
            "HARD RULES\n" + wrap("Every block keeps them; a block that breaks one is refused."),
            *map(rule_text, hard),
        ]
    if soft:
        head = "Bands a block is brought as near to as can be; what is missed is listed in the block."
        parts += ["AIMS\n" + wrap(head), *map(rule_text, soft)]
    return "\n\n".join(parts) + "\n"


def rule_text(rule: Rule) -> str:
    """One rule: id and title, then its sentence and standing, indented."""
    counted = f"{'Hard' if rule.hard else 'An aim'}; counted in {rule.unit}. Source: {rule.source}."
    return "\n".join([f"{rule.id}: {rule.title}", wrap(rule.says, "  "), wrap(counted, "  ")])


def rule_json(rule: Rule) -> dict[str, Any]:
    return {
        "id": rule.id,
        "title": rule.title,
        "sentence": rule.says,
        "source": rule.source,
        "unit": rule.unit,
        "hard": rule.hard,
    }
