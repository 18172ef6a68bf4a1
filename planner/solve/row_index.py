"""Rows indexed by their variables, so that a question about few variables looks at few rows."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import replace

from planner.problem.variable import Variable
from planner.rules.rule import Row, Term
from planner.solve.cp_model import holds_at
from planner.solve.relax import Ranges

Place = tuple[str, int | None] | Variable  # a movement and its day; a variable without a movement is its own place


class RowIndex:
    """Rows by number, and the rows of every variable."""

    def __init__(self, rows: Sequence[Row], ranges: Ranges) -> None:
        self.rows, self.ranges = rows, ranges
        self._at: dict[Variable, list[tuple[int, int]]] = {}
        for number, row in enumerate(rows):
            for coefficient, key in row.terms:
                self._at.setdefault(key, []).append((number, coefficient))
        self._at_zero = [number for number, row in enumerate(rows) if not holds_at(row, 0)]
        self._fixed = [key for key, (low, _) in ranges.items() if low > 0]
        self._places: dict[Place, list[Variable]] = {}
        for key in ranges:
            self._places.setdefault(_place(key), []).append(key)

    def broken(self, point: Mapping[Variable, int]) -> set[int]:
        """Numbers of the rows that do not hold at a point; variables without a value are at their least."""
        totals: dict[int, int] = {}
        for key, value in {**{key: self.ranges[key][0] for key in self._fixed}, **point}.items():
            if value:
                for number, coefficient in self._at.get(key, ()):
                    totals[number] = totals.get(number, 0) + coefficient * value
        broken = {number for number, total in totals.items() if not holds_at(self.rows[number], total)}
        return broken | {number for number in self._at_zero if number not in totals}

    def among(self, keep: Iterable[Variable], standing: int, asked: Collection[int]) -> list[Row] | None:
        """The first ``standing`` rows and those asked, over these variables with all others at zero.

        None if one of them then cannot hold.
        """
        terms: dict[int, list[Term]] = {}
        for key in dict.fromkeys([*self._fixed, *keep]):
            for number, coefficient in self._at.get(key, ()):
                if number < standing or number in asked:
                    terms.setdefault(number, []).append((coefficient, key))
        if any((number < standing or number in asked) and number not in terms for number in self._at_zero):
            return None
        rows = self.rows
        return [replace(rows[number], terms=tuple(terms[number]), price=0) for number in sorted(terms)]

    def around(self, rows: Iterable[Row]) -> dict[Variable, None]:
        """The variables of these rows, and all others of the same movements on the same days."""
        places = dict.fromkeys(_place(key) for row in rows for _, key in row.terms)
        return dict.fromkeys(key for place in places for key in self._places[place])


def _place(key: Variable) -> Place:
    """The movement and the day of a variable; a phase's choice and the sets of its weeks share a place."""
    return key if key.at.movement is None else (key.at.movement, key.at.slot)
