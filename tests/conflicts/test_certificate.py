"""The exact certificate: true where multiples of the rows contradict the ranges, and never for rows that hold."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from planner.domain.address import NOWHERE
from planner.problem.variable import hard_key
from planner.rules.rule import Row
from planner.solve.certificate import certified, contradicts

X, Y = hard_key(1, 1), hard_key(1, 2)
RANGES = {X: (0, 3), Y: (0, 3)}
numbers = st.integers(-4, 4)


def row(a: int, b: int, low: int | None, high: int | None) -> Row:
    terms = tuple((c, key) for c, key in ((a, X), (b, Y)) if c)
    return Row("some-rule", NOWHERE, terms, low, high)


def test_two_sums_that_cannot_both_be() -> None:
    rows = [row(1, 1, 4, None), row(1, 0, None, 1), row(0, 1, None, 1)]
    assert certified(rows, RANGES)
    assert contradicts(rows, RANGES, [1, -1, -1])


def test_multiples_that_add_up_to_nothing_prove_nothing() -> None:
    rows = [row(1, 1, 2, None), row(1, 0, None, 1), row(0, 1, None, 1)]
    assert not contradicts(rows, RANGES, [1, -1, -1])
    assert not certified(rows, RANGES)


def test_what_only_whole_numbers_rule_out_is_not_certified() -> None:
    assert not certified([row(2, 2, 3, 3)], RANGES)


@given(st.lists(st.tuples(numbers, numbers, st.integers(-9, 9)), min_size=1, max_size=5), st.booleans())
def test_rows_with_a_solution_are_never_certified(drawn: list[tuple[int, int, int]], least: bool) -> None:
    rows = [row(a, b, low if least else None, None if least else low) for a, b, low in drawn if a or b]
    values = [(x, y) for x in range(4) for y in range(4)]
    holds = any(all(_holds(r, x, y) for r in rows) for x, y in values)
    if rows and certified(rows, RANGES):
        assert not holds


def _holds(one: Row, x: int, y: int) -> bool:
    total = sum(c * {X: x, Y: y}[key] for c, key in one.terms)
    return (one.low is None or total >= one.low) and (one.high is None or total <= one.high)
