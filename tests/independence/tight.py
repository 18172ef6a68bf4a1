"""Which rules hold a finished block back: rows that it meets with nothing to spare."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from planner.rules.rule import Row


def tight_rules(rows: Sequence[Row], values: Mapping[str, int]) -> set[str]:
    """Rules with a tight row.

    A row over work that the block does is tight where no further set, contact or choice fits between its sum and a
    limit: less than its smallest coefficient is left. A row that closes one choice altogether is tight as it stands.
    """
    found = set()
    for row in rows:
        if _closes(row):
            found.add(row.rule)
        elif any(values[key] for _, key in row.terms):
            total = sum(coefficient * values[key] for coefficient, key in row.terms)
            step = min(abs(coefficient) for coefficient, _ in row.terms)
            if (row.low is not None and total - row.low < step) or (row.high is not None and row.high - total < step):
                found.add(row.rule)
    return found


def _closes(row: Row) -> bool:
    return len(row.terms) == 1 and row.high == 0 and not row.price
