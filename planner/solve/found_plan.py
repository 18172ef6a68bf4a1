"""What stage 1 comes to: a block with what it misses, no block at all, or neither within the budget."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Literal

from planner.domain.block import Stage
from planner.problem.model import Problem
from planner.problem.variable import Values
from planner.rules.rule import Row

Progress = Callable[[str], None]


class NoBlock(Exception):
    """The hard rules cannot all hold. ``rows``: those of the whole library; ``core``: some that already conflict."""

    def __init__(self, problem: Problem, rows: Sequence[Row], core: Sequence[Row] | None = None) -> None:
        super().__init__("no block keeps every hard rule")
        self.problem, self.rows, self.core = problem, rows, rows if core is None else core


class BudgetSpent(Exception):
    """The budget ran out before a block, or the proof that there is none."""


@dataclass(frozen=True)
class FoundPlan:
    """A block: values of its variables, the soft rows it misses, and the deterministic time spent so far.

    ``bound``: no block of the whole library misses less than this, in priced units.
    """

    problem: Problem
    values: Values
    missed: tuple[tuple[Row, int], ...]
    spent: float
    bound: int = 0

    @property
    def objective(self) -> int:
        return sum(row.price * units for row, units in self.missed)

    @property
    def proved(self) -> bool:
        return self.objective <= self.bound

    @property
    def stage(self) -> Stage:
        status: Literal["optimal", "feasible"] = "optimal" if self.proved else "feasible"
        return Stage(name="bands", status=status, objective=self.objective, bound=self.bound, unit="points")
