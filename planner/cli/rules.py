"""``jumpblock rules``: the manual."""

from __future__ import annotations

import click

from planner.cli.completing import templates
from planner.cli.output import Command, result, show_findings, to_json


@click.command("rules", cls=Command, short_help="Print the rules that blocks are held to.")
@click.argument("rule_id", metavar="[ID]", required=False)
@click.option(
    "--template", metavar="NAME", shell_complete=templates, help="Whose numbers, by name or path [default: eight-week]."
)
@click.option("--json", "as_json", is_flag=True, help="Print the rules as data.")
def command(rule_id: str | None, template: str | None, as_json: bool) -> None:
    """Print the rules that every block is held to, or the one called ID, with the numbers of a template."""
    from planner.jobs.look_up_rules import rule_named, template_named
    from planner.report.rules_text import rule_json, rule_text, rules_text
    from planner.rules.registry import all_rules

    rule = rule_named(rule_id) if rule_id is not None else None
    read = template_named(template)
    held = read.require()
    show_findings(read.findings)
    if rule is None:
        everything = [rule_json(one, held) for one in all_rules()] if as_json else None
        result(rules_text(all_rules(), held) if everything is None else to_json(everything))
    else:
        result(to_json(rule_json(rule, held)) if as_json else f"{rule_text(rule, held)}\n")
