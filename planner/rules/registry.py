"""Every rule, found in this folder and sorted by id, so that the order is always the same."""

from __future__ import annotations

import hashlib
import importlib
import inspect
import pkgutil
from collections.abc import Iterator, Mapping
from functools import cache
from typing import TypeVar

import planner.rules
from planner.problem.model import Problem
from planner.problem.variable import Variable
from planner.rules.past_rows import is_forced, with_the_past
from planner.rules.rule import Row, Rule

C = TypeVar("C")


@cache
def all_rules() -> tuple[Rule, ...]:
    found = classes(Rule)  # type: ignore[type-abstract]  # those with an id are concrete
    return tuple(sorted((rule() for rule in found if "id" in vars(rule)), key=lambda rule: rule.id))


def classes(base: type[C]) -> Iterator[type[C]]:
    """The subclasses of ``base`` in this folder, by file."""
    for module in pkgutil.iter_modules(planner.rules.__path__):
        loaded = importlib.import_module(f"planner.rules.{module.name}")
        for _, member in inspect.getmembers(loaded, inspect.isclass):
            if issubclass(member, base) and member is not base and member.__module__ == loaded.__name__:
                yield member


def rule_by_id(rule_id: str) -> Rule | None:
    return _by_id().get(rule_id)


def rule_named(rule_id: str) -> Rule:
    """The rule that a row or a loosening names. Raises KeyError if there is none."""
    return _by_id()[rule_id]


@cache
def _by_id() -> dict[str, Rule]:
    return {rule.id: rule for rule in all_rules()}


def gather_rows(problem: Problem) -> list[Row]:
    """All rows of all rules, in canonical order; what was done is a constant."""
    rows = (row for rule in all_rules() for row in rule.rows(problem))
    return list(with_the_past(rows, problem, _by_id()) if problem.past else rows)


def forced_rows(problem: Problem, values: Mapping[Variable, int]) -> list[Row]:
    """The hard rows that a revised block of these values breaks, and for which only its past can be to blame."""
    rows = (row for rule in all_rules() for row in rule.rows(problem))
    return [row for row in rows if is_forced(row, problem, values, rule_named(row.rule))]


def rules_version() -> str:
    """A digest of what the rules say; a block made under other rules has another one."""
    text = "\n".join(f"{r.id}|{r.title}|{r.says}|{r.source}|{r.unit}|{r.hard}" for r in all_rules())
    return hashlib.sha256(text.encode()).hexdigest()[:12]
