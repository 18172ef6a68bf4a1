"""Rows and audit of a rule share no arithmetic: what they do share is listed with its cases, by its kind.

Neither would find wrong what both use, so it is a limit that both are held to, a definition of what a movement, a gym,
a joint or an athlete is, or a date: never a sum. It has tests of its own.
"""

from __future__ import annotations

import pytest

from planner.rules.registry import all_rules
from planner.rules.rule import Rule
from tests.architecture.sharing import shared
from tests.rules.cases import shares

KINDS = {"limits", "definitions", "dates"}
CHOICES = "Problem.choices"  # the order of variables: an audit uses it only to lay out rows


@pytest.mark.parametrize("rule", all_rules(), ids=lambda rule: rule.id)
def test_what_rows_and_audit_share_is_what_is_listed(rule: Rule) -> None:
    listed = [name for names in shares(rule.id).values() for name in names]
    assert sorted(shared(rule) - {CHOICES}) == sorted(listed)


def test_what_is_shared_is_of_one_kind_for_all_rules() -> None:
    found: dict[str, set[str]] = {}
    for rule in all_rules():
        for kind, names in shares(rule.id).items():
            assert kind in KINDS, f"{rule.id}: {kind}"
            for name in names:
                found.setdefault(name, set()).add(kind)
    assert {name: kinds for name, kinds in found.items() if len(kinds) > 1} == {}


def test_no_coefficient_of_the_solver_is_used_by_an_audit() -> None:
    """What a set counts (planner/problem/per_set.py) is for rows alone."""
    wrong = [f"{rule.id}: {name}" for rule in all_rules() for name in shared(rule) if name.startswith("per_set.")]
    assert not wrong, wrong
