"""Which rules hold a finished block back: rows that it meets with nothing to spare."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence

from planner.rules.base import Row


def tight_rules(rows: Sequence[Row], values: Mapping[str, int]) -> set[str]:
    """Rules with a tight row.

    A row over work that the block does is tight where its sum stands at a limit, or beyond it where the row may be
    missed. A row that closes one choice altogether is tight where no other rule closes the same.
    """
    closed_by = Counter(row.terms[0][1] for row in rows if _closes(row))
    found = set()
    for row in rows:
        if _closes(row):
            if closed_by[row.terms[0][1]] == 1:
                found.add(row.rule)
            continue
        if not any(values[key] for _, key in row.terms):
            continue
        total = sum(coefficient * values[key] for coefficient, key in row.terms)
        if (row.low is not None and total <= row.low) or (row.high is not None and total >= row.high):
            found.add(row.rule)
    return found


def _closes(row: Row) -> bool:
    return len(row.terms) == 1 and row.high == 0 and not row.price
