"""Whether rules can hold together with a frame, asked many times while a conflict is shrunk.

The cheapest sufficient answer comes first. A point found for one question often answers the next. Otherwise a few
variables are tried, those of the last points and of the rules left out: a yes from them holds for the whole library. A
no may come only from the whole.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from planner.problem.variable import Variable
from planner.rules.rule import Row
from planner.solve.budgets import CLOSE_BY, FEW_OF_ALL, QUESTION, RECENT
from planner.solve.feasibility import Asker, Frame
from planner.solve.row_index import RowIndex


class RepeatedQuestions:
    """Questions about rows together with a frame that is always there.

    ``points``: solutions of the frame, or of a part of it, to start from.
    """

    def __init__(
        self, asker: Asker, frame: Sequence[Row], rows: Sequence[Row], points: Sequence[Mapping[Variable, int]] = ()
    ) -> None:
        self.asker, self.frame = asker, Frame(asker, frame)
        self.index = RowIndex([*frame, *rows], asker.ranges)
        self.standing = len(frame)
        self.numbers = {id(row): number for number, row in enumerate(rows, start=len(frame))}
        self.left = list(rows)  # the last rows that could not hold
        self.points = list(points)
        self.broken: list[set[int]] = []  # the rows that each point found here breaks

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
        """Whether the rows hold with only the variables of points already found and of rows left out."""
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
