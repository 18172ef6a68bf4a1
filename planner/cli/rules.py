"""``jumpblock rules``: the manual."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from planner.cli.output import Command, result, show_findings, to_json

if TYPE_CHECKING:
    from planner.domain.template import Template


@click.command("rules", cls=Command)
@click.argument("rule_id", metavar="[ID]", required=False)
@click.option("--template", metavar="NAME", help="Whose numbers, by name or path [default: eight-week].")
@click.option("--json", "as_json", is_flag=True, help="Print the rules as data.")
def command(rule_id: str | None, template: str | None, as_json: bool) -> None:
    """Print the rules that every block is held to, or the one called ID, with the numbers of a template."""
    from planner.report.rules_text import rule_json, rule_text, rules_text
    from planner.rules.registry import all_rules, rule_by_id

    rule = rule_by_id(rule_id) if rule_id is not None else None
    if rule_id is not None and rule is None:
        raise _unknown(rule_id, [known.id for known in all_rules()])
    held = _template(template)
    if rule is None:
        everything = [rule_json(one, held) for one in all_rules()] if as_json else None
        result(rules_text(all_rules(), held) if everything is None else to_json(everything))
    else:
        result(to_json(rule_json(rule, held)) if as_json else f"{rule_text(rule, held)}\n")


def _template(name: str | None) -> Template:
    """The template that is asked for, looked for near the working folder, then among the shipped ones."""
    from planner.files.load import load_template
    from planner.files.locate import locate_template
    from planner.jobs.sources import USUAL_TEMPLATE

    at = locate_template(name or USUAL_TEMPLATE, beside=".")
    loaded = load_template(at.path, at.display)
    template = loaded.require()
    show_findings(loaded.findings)
    return template


def _unknown(rule_id: str, known: list[str]) -> Exception:
    from planner.domain.findings import Finding, UserError
    from planner.files.suggest import did_you_mean

    hint = did_you_mean(rule_id, known) or "jumpblock rules lists them all"
    return UserError([Finding("", 0, 0, "unknown-rule", f"there is no rule called '{rule_id}'", hint)])
