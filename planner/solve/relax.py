"""Smaller questions that every block of the whole library must satisfy too.

Leaving variables out of a row and widening it by all that they could add never loses a block: what the smaller question
rules out is ruled out for the whole library, and its least cost is a lower bound.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Collection, Mapping, Sequence

from planner.problem.variable import Term, Variable
from planner.rules.rule import Row

Ranges = Mapping[Variable, tuple[int, int]]


def projected(rows: Sequence[Row], ranges: Ranges, keep: Collection[Variable]) -> list[tuple[Row, Row]]:
    """(row over the kept variables, its original); without rows that can no longer be missed."""
    found = []
    for row in rows:
        inside = tuple(term for term in row.terms if term[1] in keep)
        if not inside and row.terms:
            continue
        least, most = reach([term for term in row.terms if term[1] not in keep], ranges)
        low = None if row.low is None else row.low - most
        high = None if row.high is None else row.high - least
        if not _always_holds(inside, ranges, low, high) or len(inside) == len(row.terms):
            found.append((dataclasses.replace(row, terms=inside, low=low, high=high), row))
    return found


def reach(terms: Sequence[Term], ranges: Ranges) -> tuple[int, int]:
    """The least and the most that a sum can be."""
    least = most = 0
    for coefficient, key in terms:
        low, high = ranges[key]
        least += min(coefficient * low, coefficient * high)
        most += max(coefficient * low, coefficient * high)
    return least, most


def of_movements(ranges: Ranges, movements: Collection[str]) -> dict[Variable, tuple[int, int]]:
    """The variables of these movements and those without a movement (shapes and hard days)."""
    return {key: limits for key, limits in ranges.items() if key.at.movement is None or key.at.movement in movements}


def _always_holds(terms: Sequence[Term], ranges: Ranges, low: int | None, high: int | None) -> bool:
    least, most = reach(terms, ranges)
    return (low is None or least >= low) and (high is None or most <= high)
