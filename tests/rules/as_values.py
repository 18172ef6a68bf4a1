"""A finished block as values of the solver's variables, read back from its dates and items; and rows tried on them."""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from scipy.sparse import csr_array

from planner.domain.block import Block, Session
from planner.problem.model import RETEST, Problem
from planner.problem.variable import Values, Variable, hard_key, in_key, sets_key, takes_key
from planner.rules.recount import count_block
from planner.rules.registry import gather_rows
from planner.rules.rule import Row
from planner.solve.variable_ranges import variable_ranges

_NO_LOW, _NO_HIGH = -(2**62), 2**62


@dataclass(frozen=True)
class AsValues:
    """``lost``: what the block holds and no variable can say (a date that is no training day, say)."""

    values: Values
    lost: tuple[str, ...]


def as_values(block: Block, problem: Problem) -> AsValues:
    """``in`` is 1 where a phase's day lists the movement, ``hard`` where the audit's counting finds a hard day."""
    ranges = variable_ranges(problem)
    values = dict.fromkeys(ranges, 0)
    lost: list[str] = []
    at: dict[datetime.date, tuple[int, int]] = {date: key for key, date in problem.dates.items()}
    for week in count_block(block, problem).weeks:
        for counted in week.sessions:
            key = at.get(counted.date)
            if key is None or key[0] != week.number:
                lost.append(f"{counted.where} stands on no training day of its week")
                continue
            if not problem.is_test_day(*key):
                values[hard_key(*key)] = int(counted.is_hard(problem))
            said = _session_values(counted.session, key, problem)
            lost += [f"{name} in {counted.where}" for name in said if name not in ranges]
            for name, value in said.items():
                values[name] = values[name] + value if name.at.movement == RETEST else value
    return AsValues({k: v for k, v in values.items() if k in ranges}, tuple(lost))


def _session_values(session: Session, key: tuple[int, int], problem: Problem) -> Values:
    week, slot = key
    said: Values = {}
    if week != problem.last_week:
        said[takes_key(slot, session.focus)] = 1
    for item in session.items:
        name = sets_key(week, slot, item.movement)
        said[name] = said.get(name, 0) + item.sets
        if item.movement != RETEST:
            said[in_key(problem.phase_of(week), slot, item.movement)] = 1
    return said


class Rows:
    """Rows of a problem as one sparse matrix, so that many blocks can be tried on them."""

    def __init__(self, problem: Problem, rows: Sequence[Row] | None = None) -> None:
        self.rows = gather_rows(problem) if rows is None else list(rows)
        self.keys = list(variable_ranges(problem))
        column = {key: index for index, key in enumerate(self.keys)}
        entries = [(c, i, column[key]) for i, row in enumerate(self.rows) for c, key in row.terms]
        coefficients, lines, columns = zip(*entries, strict=True) if entries else ((), (), ())
        shape = (len(self.rows), len(self.keys))
        self._matrix = csr_array((coefficients, (lines, columns)), shape=shape, dtype=np.int64)
        self._low = np.array([_NO_LOW if row.low is None else row.low for row in self.rows])
        self._high = np.array([_NO_HIGH if row.high is None else row.high for row in self.rows])

    def missed(self, values: Mapping[Variable, int]) -> list[Row]:
        """The rows that the values lie outside of."""
        totals = self._matrix @ np.array([values[key] for key in self.keys], dtype=np.int64)
        return [self.rows[i] for i in np.flatnonzero((totals < self._low) | (totals > self._high))]


def out_of_range(values: Mapping[Variable, int], problem: Problem) -> list[str]:
    """Variables whose value no solution can have."""
    ranges = variable_ranges(problem)
    return [key for key, value in values.items() if not ranges[key][0] <= value <= ranges[key][1]]


def rules_of(rows: Iterable[Row]) -> list[str]:
    return sorted({row.rule for row in rows})
