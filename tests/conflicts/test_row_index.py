"""Rows laid out by their variables say of a point, and of a few variables, what the rows themselves say."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from planner.domain.address import Address
from planner.problem.variable import Values, Variable, in_key, sets_key
from planner.rules.rule import Row
from planner.solve.feasibility import Asker, Budget, Frame
from planner.solve.row_index import RowIndex

HOP, HOP_SETS = in_key("a", 1, "hop"), sets_key(1, 1, "hop")
SKIP, SKIP_SETS = in_key("a", 1, "skip"), sets_key(1, 1, "skip")
RANGES = {HOP: (0, 1), HOP_SETS: (0, 3), SKIP: (0, 1), SKIP_SETS: (1, 3)}
KEYS = list(RANGES)
STANDING = 1

terms = st.dictionaries(st.sampled_from(KEYS), st.sampled_from([-3, -2, -1, 1, 2, 3]), max_size=4)
limits = st.one_of(st.none(), st.integers(-6, 6))


def _row(drawn: Values, low: int | None, width: int | None) -> Row:
    high = width if low is None else None if width is None else low + abs(width)
    return Row("rule", Address(week=1, slot=1), tuple((c, key) for key, c in drawn.items()), low, high)


rows = st.lists(st.builds(_row, terms, limits, limits), min_size=1, max_size=5)
points = st.fixed_dictionaries({key: st.integers(*limits) for key, limits in RANGES.items()})


def _holds(row: Row, point: Values) -> bool:
    total = sum(c * point[key] for c, key in row.terms)
    return (row.low is None or total >= row.low) and (row.high is None or total <= row.high)


@given(rows, points)
def test_a_point_breaks_the_rows_whose_sums_lie_outside(drawn: list[Row], point: Values) -> None:
    assert RowIndex(drawn, RANGES).broken(point) == {n for n, row in enumerate(drawn) if not _holds(row, point)}


@given(rows, st.sets(st.sampled_from(KEYS)), st.sets(st.integers(0, 4)), points)
def test_among_few_variables_the_rows_hold_as_with_all_others_at_zero(
    drawn: list[Row], keep: set[Variable], asked: set[int], point: Values
) -> None:
    never_zero = {key for key, (low, _) in RANGES.items() if low}
    narrowed = {key: value if key in keep | never_zero else 0 for key, value in point.items()}
    among = RowIndex(drawn, RANGES).among(sorted(keep, key=str), STANDING, asked)
    whole = all(_holds(row, narrowed) for n, row in enumerate(drawn) if n < STANDING or n in asked)
    assert whole == (among is not None and all(_holds(row, narrowed) for row in among))


@given(rows, rows)
def test_a_frame_and_rows_hold_beside_it_as_they_hold_together(frame: list[Row], drawn: list[Row]) -> None:
    asker = Asker(RANGES, Budget(1.0))
    assert Frame(asker, frame).holds(drawn, 1.0) == asker.holds([*frame, *drawn], 1.0)


def test_around_a_row_is_all_of_its_movements_on_their_day() -> None:
    row = Row("rule", HOP.at, ((1, HOP),), None, 0)
    assert list(RowIndex([row], RANGES).around([row])) == [HOP, HOP_SETS]
