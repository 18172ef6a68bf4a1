"""Whether rows can hold together: the solver's answer, within a budget of deterministic time.

None (the budget ran out) is a third answer and never stands in for yes or no.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace

from ortools.sat.python import cp_model

from planner.problem.variable import Values, Variable
from planner.rules.rule import Row
from planner.solve.budgets import QUICK
from planner.solve.cp_model import SEED, add_hard, found_any, holds_at, solver, spent
from planner.solve.relax import Ranges, reach

Question = Callable[[Sequence[Row]], bool | None]
Variables = dict[Variable, cp_model.IntVar]


@dataclass
class Budget:
    """Deterministic time left to spend."""

    left: float

    def share(self, most: float) -> float:
        return max(0.0, min(self.left, most))


class Asker:
    """Asks whether rows can hold together, each question with its own limit.

    ``point``: the solution of the last yes; variables without a value are at their least.
    """

    def __init__(self, ranges: Ranges, budget: Budget) -> None:
        self.ranges, self.budget = ranges, budget
        self.point: Values = {}

    def holds(self, rows: Sequence[Row], most: float, seed: int = SEED, *, quick: bool = False) -> bool | None:
        """True, False, or None if the budget ran out.

        ``quick``: search without linear relaxations, which is faster with few variables.
        """
        simple = simplified(rows, self.ranges)
        return False if simple is None else self.run(*plain_model(*simple), most, seed, quick=quick)

    def holds_soon(self, rows: Sequence[Row], most: float) -> bool | None:
        """As ``holds``, but quick first: a yes often comes at once, and a no in presolve."""
        answer = self.holds(rows, QUICK * most, quick=True)
        return self.holds(rows, most) if answer is None else answer

    def run(
        self, model: cp_model.CpModel, variables: Variables, most: float, seed: int = SEED, *, quick: bool = False
    ) -> bool | None:
        allowed = self.budget.share(most)
        if allowed <= 0:
            return None
        solved = solver(allowed)
        solved.parameters.random_seed = seed
        if quick:
            solved.parameters.linearization_level = solved.parameters.cp_model_probing_level = 0
        status = solved.solve(model)
        self.budget.left -= spent(solved)
        if not found_any(status):
            return False if status == cp_model.INFEASIBLE else None
        self.point = {key: solved.value(variable) for key, variable in variables.items()}
        return True


class Frame:
    """Rows that many questions share, with their model built once."""

    def __init__(self, asker: Asker, rows: Sequence[Row]) -> None:
        self.asker = asker
        self.model, self.variables = plain_model([row for row in rows if row.terms], asker.ranges)
        self.possible = all(row.terms or holds_at(row, 0) for row in rows)

    def holds(self, rows: Sequence[Row], most: float, *, quick: bool = False) -> bool | None:
        """Whether the rows hold together with the frame."""
        if not self.possible or not all(row.terms or holds_at(row, 0) for row in rows):
            return False
        model, variables = self.model.clone(), dict(self.variables)
        add_rows(model, variables, [row for row in rows if row.terms], self.asker.ranges)
        return self.asker.run(model, variables, most, quick=quick)


def simplified(rows: Sequence[Row], ranges: Ranges) -> tuple[list[Row], dict[Variable, tuple[int, int]]] | None:
    """The rows without variables that must be zero; None if a row cannot hold by its own arithmetic."""
    bounds = dict(ranges)
    closed = {row.terms[0][1] for row in rows if len(row.terms) == 1 and row.high == 0 and row.terms[0][0] > 0}
    closed |= _following(rows, closed)
    kept = []
    for row in rows:
        terms = tuple(term for term in row.terms if term[1] not in closed)
        least, most = reach(terms, bounds)
        if (row.low is not None and most < row.low) or (row.high is not None and least > row.high):
            return None
        if (row.low is not None and least < row.low) or (row.high is not None and most > row.high):
            kept.append(replace(row, terms=terms))
    if any(bounds[key][0] > 0 for key in closed):
        return None
    return kept, bounds


def _following(rows: Sequence[Row], closed: set[Variable]) -> set[Variable]:
    """Variables that a closed one keeps at zero: sets of a movement that the phase does not choose."""
    found = set()
    for row in rows:
        if row.high == 0 and len(row.terms) == 2:
            (first, key), (second, other) = row.terms
            if first > 0 > second and other in closed:
                found.add(key)
    return found


def plain_model(rows: Iterable[Row], ranges: Ranges) -> tuple[cp_model.CpModel, Variables]:
    """Hard rows alone, over the variables that they use."""
    model, variables = cp_model.CpModel(), Variables()
    add_rows(model, variables, rows, ranges)
    return model, variables


def add_rows(model: cp_model.CpModel, variables: Variables, rows: Iterable[Row], ranges: Ranges) -> None:
    """Add the rows to the model, and the variables that it lacks."""
    for row in rows:
        for _, key in row.terms:
            if key not in variables:
                variables[key] = model.new_int_var(*ranges[key], key.name)
        add_hard(model, variables, row)
