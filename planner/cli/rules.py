"""``jumpblock rules``: the manual."""

from __future__ import annotations

import click

from planner.cli.output import Command, result, to_json


@click.command("rules", cls=Command)
@click.argument("rule_id", metavar="[ID]", required=False)
@click.option("--json", "as_json", is_flag=True, help="Print the rules as data.")
def command(rule_id: str | None, as_json: bool) -> None:
    """Print the rules that every block is held to, or the one called ID."""
    from planner.report.rules import rule_json, rule_text, rules_text
    from planner.rules.registry import all_rules, rule_by_id

    if rule_id is None:
        result(to_json([rule_json(rule) for rule in all_rules()]) if as_json else rules_text(all_rules()))
        return
    rule = rule_by_id(rule_id)
    if rule is None:
        raise _unknown(rule_id, [known.id for known in all_rules()])
    result(to_json(rule_json(rule)) if as_json else f"{rule_text(rule)}\n")


def _unknown(rule_id: str, known: list[str]) -> Exception:
    from planner.domain.findings import Finding, UserError
    from planner.files.suggest import did_you_mean

    hint = did_you_mean(rule_id, known) or "jumpblock rules lists them all"
    return UserError([Finding("", 0, 0, "unknown-rule", f"there is no rule called '{rule_id}'", hint)])
