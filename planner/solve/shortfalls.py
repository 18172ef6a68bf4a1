"""What a block misses of the soft rows, in each row's own whole numbers."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from planner.problem.variable import Variable
from planner.rules.rule import Row


def shortfalls(rows: Sequence[Row], values: Mapping[Variable, int]) -> tuple[tuple[Row, int], ...]:
    """Soft rows that the values miss, with the units missed."""
    return tuple((row, units) for row in rows if row.price and (units := units_missed(row, values)))


def units_missed(row: Row, values: Mapping[Variable, int]) -> int:
    """How far the row's sum is outside its limits, in the row's whole numbers; 0 inside."""
    total = sum(c * values[k] for c, k in row.terms)
    short = 0 if row.low is None else row.low - total
    over = 0 if row.high is None else total - row.high
    return max(short, over, 0)
