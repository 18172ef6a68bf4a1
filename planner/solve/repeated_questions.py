"""Whether rules can hold beside what a block is, asked many times over while a conflict is shrunk.

The cheapest answer that will do comes first. A point found for one question often answers the next. Else a few
variables are tried, those of the points found last and those that the rules left out speak of: their yes is a yes for
the whole library. Only then is the whole asked; no other may say no.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from planner.problem.variable import Variable
from planner.rules.base import Row
from planner.solve.budgets import CLOSE_BY, FEW_OF_ALL, QUESTION, RECENT
from planner.solve.feasibility import Asker, Frame
from planner.solve.row_index import RowIndex


class RepeatedQuestions:
    """Questions about rows beside a frame that always stands.

    ``points``: that hold beside the frame, or in a part of it, to lean on before any is found.
    """

    def __init__(
        self, asker: Asker, frame: Sequence[Row], rows: Sequence[Row], points: Sequence[Mapping[Variable, int]] = ()
    ) -> None:
        self.asker, self.frame = asker, Frame(asker, frame)
        self.index = RowIndex([*frame, *rows], asker.ranges)
        self.standing = len(frame)
        self.numbers = {id(row): number for number, row in enumerate(rows, start=len(frame))}
        self.left = list(rows)  # the last that could not hold
        self.points = list(points)
        self.broken: list[set[int]] = []  # of the points found here, the rows that each breaks

    def holds(self, rows: Sequence[Row]) -> bool | None:
        answer = self._answer(rows)
        if answer is False:
            self.left = list(rows)
        return answer

    def _answer(self, rows: Sequence[Row]) -> bool | None:
        asked = {self.numbers[id(row)] for row in rows}
        if any(broken.isdisjoint(asked) for broken in self.broken) or self._close_by(asked):
            return True
        answer = self.frame.holds(rows, QUESTION)
        if answer:
            self._learn()
        return answer

    def _close_by(self, asked: set[int]) -> bool:
        """Whether the rows hold with no other variables than those of points already found, and of what is left out."""
        left_out = [row for row in self.left if self.numbers[id(row)] not in asked]
        used = [key for point in self.points[-RECENT:] for key, value in point.items() if value]
        keep = dict.fromkeys([*used, *self.index.around(left_out)])
        if not used or FEW_OF_ALL * len(keep) > len(self.asker.ranges):
            return False
        among = self.index.among(keep, self.standing, asked)
        if among is None or not self.asker.holds(among, CLOSE_BY, quick=True):
            return False
        self._learn()
        return True

    def _learn(self) -> None:
        self.points.append(self.asker.point)
        self.broken.append(self.index.broken(self.asker.point))
