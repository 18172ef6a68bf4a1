"""A rule by its id, and the template whose numbers it is shown with."""

from __future__ import annotations

from planner.domain.findings import Finding, UserError
from planner.domain.template import Template
from planner.files.document import Loaded
from planner.files.locate import locate_template
from planner.files.suggest import did_you_mean
from planner.jobs.sources import USUAL_TEMPLATE
from planner.rules.own_limits import load_template
from planner.rules.registry import all_rules, rule_by_id
from planner.rules.rule import Rule


def rule_named(rule_id: str) -> Rule:
    """Raises UserError, with the nearest id, where there is none."""
    rule = rule_by_id(rule_id)
    if rule is None:
        hint = did_you_mean(rule_id, [known.id for known in all_rules()]) or "jumpblock rules lists them all"
        raise UserError([Finding("", 0, 0, "unknown-rule", f"there is no rule called '{rule_id}'", hint)])
    return rule


def template_named(name: str | None) -> Loaded[Template]:
    """By name or path, looked for near the working folder, then among the shipped ones. UserError if there is none."""
    at = locate_template(name or USUAL_TEMPLATE, near=".")
    return load_template(at.path, at.display)
