"""The cheapest change that gives a block: minutes of a day, a ban, a pin, a piece of equipment, an away date.

Only what a coach can change gives way (``loosened_rows``).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from ortools.sat.python import cp_model

from planner.problem.model import Problem
from planner.rules.registry import gather_rows, rule_named
from planner.rules.rule import Loosening, Row, Step
from planner.solve.budgets import MOST_TURNS, STEPS_BUDGET
from planner.solve.cp_model import solver
from planner.solve.feasibility import Asker, Budget, plain_model, simplified
from planner.solve.fewest_minutes import more_minutes
from planner.solve.loosened_rows import Offers, Rebuild, Steps, after, eased, gives, loosened, offers, opened, taken
from planner.solve.refute import holds_with_few, unkept_part
from planner.solve.relax import Ranges
from planner.solve.variable_ranges import variable_ranges


@dataclass(frozen=True)
class Repair:
    """Steps that together give a block. ``cheapest``: proved that no other steps of these kinds cost less."""

    steps: tuple[Step, ...]
    cheapest: bool


def cheapest_rows(
    problem: Problem, hard: Sequence[Row], rules: Sequence[str], part: Sequence[Row], rebuild: Rebuild | None = None
) -> Repair | None:
    """The cheapest steps of these rules (and of minutes, patterns and floors) with which there is a block.

    ``part``: rows that cannot hold together. They tell the least steps needed; after these the whole is tried again,
    and if another part cannot hold, it joins. Steps with which the whole holds are the cheapest, because the parts
    need no less. Where these rules' steps are not enough, those of other lines of the file join them.
    """
    offered = offers(problem, hard, rules)
    ranges, needed, steps = variable_ranges(problem), dict[Row, None](), Steps()
    unkept: Sequence[Row] | None = part
    for _ in range(MOST_TURNS):
        if steps:
            unkept, holds = _answer(problem, offered, steps, rebuild, thorough=not _of_minutes(rules, steps))
            if holds:
                return _change(steps, cheapest=True)
        if unkept is None:
            break
        origin = {row.key for row in unkept}
        needed.update(dict.fromkeys(row for row in hard if row.key in origin))
        found = _least(list(needed), offered, ranges, _price(steps))
        if found is None and (more := _of_other_lines(unkept, rules)):
            rules = [*rules, *more]
            offered = offers(problem, hard, rules)
            found = _least(list(needed), offered, ranges, _price(steps))
        if found is None or found == steps:
            break
        steps = found
    if not _of_minutes(rules, steps):
        return None
    enough = more_minutes(problem, hard, offered, steps, rebuild)
    return None if enough is None else _change(enough, cheapest=False)


def _of_other_lines(part: Sequence[Row], rules: Sequence[str]) -> list[str]:
    """Other rules of the part that lines of the file loosen: a short runway next to a short day, say.

    A coach's allowance is none of them: it is offered only where its own rule is in the conflict.
    """
    found = dict.fromkeys(row.rule for row in part if row.rule not in rules)
    return [rule for rule in found if rule_named(rule).loosened_in_the_file]


def _of_minutes(rules: Sequence[str], steps: Mapping[Loosening, int]) -> bool:
    """Whether minutes of a day are part of the conflict or of the steps."""
    asked = {*rules, *(one.rule for one, amount in steps.items() if amount)}
    return any(rule_named(rule).loosened_by_minutes for rule in asked)


def minutes_that_do(problem: Problem, rebuild: Rebuild) -> Repair | None:
    """More minutes on the shortest days that give a block, if the search ran out of budget.

    None if a block of a few movements needs no more: then minutes are not what is missing.
    """
    hard = [row for row in gather_rows(problem) if row.price == 0]
    if holds_with_few(Asker(variable_ranges(problem), Budget(STEPS_BUDGET)), problem, hard, STEPS_BUDGET):
        return None
    enough = more_minutes(problem, hard, offers(problem, hard), {}, rebuild)
    return None if enough is None else _change(enough, cheapest=False)


def least_steps(problem: Problem, rows: Sequence[Row], rules: Sequence[str]) -> tuple[Step, ...]:
    """The cheapest steps of these rules for these rows alone; none if the budget ran out."""
    return taken(_least(rows, offers(problem, rows, rules), variable_ranges(problem)) or {})


def _answer(
    problem: Problem, offered: Offers, steps: Mapping[Loosening, int], rebuild: Rebuild | None, *, thorough: bool
) -> tuple[Sequence[Row] | None, bool]:
    """As ``unkept_part``, for the athlete's file after the steps."""
    other, left = after(problem, steps, rebuild)
    return unkept_part(other, eased(gather_rows(other), offered, left), opened(left), thorough=thorough)


def _change(steps: Mapping[Loosening, int], *, cheapest: bool) -> Repair | None:
    found = taken(steps)
    return Repair(found, cheapest) if found else None


def _price(steps: Mapping[Loosening, int]) -> int:
    return sum(one.price * amount for one, amount in steps.items())


def _least(rows: Sequence[Row], offered: Offers, ranges: Ranges, at_least: int = 0) -> Steps | None:
    """The provably cheapest steps for these rows; None if the budget ran out or no steps suffice.

    ``at_least``: a price that no steps for these rows go below.
    """
    by_variable = {gives(one): one for row in rows for one in offered.get(row, ())}
    loose = [made for row in rows for made in loosened(row, offered.get(row, ()))]
    simple = simplified(loose, {**ranges, **{key: (0, one.most) for key, one in by_variable.items()}})
    if simple is None:
        return None
    model, variables = plain_model(*simple)
    used = {key: variable for key, variable in variables.items() if key in by_variable}
    price = cp_model.LinearExpr.weighted_sum(list(used.values()), [by_variable[key].price for key in used])
    model.add_linear_constraint(price, at_least, cp_model.INT_MAX)
    model.minimize(price)
    solved = solver(STEPS_BUDGET)
    if solved.solve(model) != cp_model.OPTIMAL:
        return None
    return {by_variable[key]: solved.value(variable) for key, variable in used.items()}
