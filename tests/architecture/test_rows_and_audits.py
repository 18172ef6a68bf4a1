"""Rows and audit of a rule share no arithmetic: all that they do share is listed, by its kind."""

from __future__ import annotations

from pathlib import Path

from ruamel.yaml import YAML

from planner.rules.registry import all_rules
from tests.architecture.sharing import shared

LISTED = YAML(typ="safe").load((Path(__file__).parent / "shared_by_rows_and_audits.yaml").read_text("utf-8"))
CHOICES = "Problem.choices"  # the order of variables: an audit uses it only to lay out rows


def test_what_rows_and_audits_share_is_what_is_listed() -> None:
    listed = {name: set(rules) for kind in LISTED.values() for name, rules in kind.items()}
    found: dict[str, set[str]] = {}
    for rule in all_rules():
        for name in shared(rule) - {CHOICES}:
            found.setdefault(name, set()).add(rule.id)
    assert found == listed


def test_no_coefficient_of_the_solver_is_used_by_an_audit() -> None:
    """What a set counts (planner/problem/per_set.py) is for rows alone."""
    wrong = [f"{rule.id}: {name}" for rule in all_rules() for name in shared(rule) if name.startswith("per_set.")]
    assert not wrong, wrong
