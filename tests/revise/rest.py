"""The rest of the in-season player's block after some days, planned in memory from the demo that all tests share."""

from __future__ import annotations

import datetime
from dataclasses import dataclass, replace

from planner.domain.athlete import Athlete
from planner.domain.block import Block, PastSession, Revision
from planner.domain.gap_record import Gap
from planner.problem.from_files import estimate_and_problem
from planner.problem.model import Problem
from planner.problem.revised import routines_of, since_of
from planner.solve.fewest_changes import WantedRest
from planner.solve.make_block import References, make_block
from planner.solve.past import with_past
from planner.solve.reasons import Change, changes_with_reasons
from planner.solve.rest_of_block import solve_rest
from planner.solve.stages import Solution
from tests.solve.demos import SOMEWHERE, Lines, athlete, solved

START = datetime.date(2025, 9, 8)  # of the in-season player's block: Mondays and Wednesdays, four weeks
SECOND_WEDNESDAY, THIRD_MONDAY = datetime.date(2025, 9, 17), datetime.date(2025, 9, 22)


@dataclass(frozen=True)
class Rest:
    """The block in use as it is told, the revised one, and how it was found."""

    told: Block
    new: Block
    solution: Solution

    @property
    def changes(self) -> list[Change]:
        return changes_with_reasons(self.solution.problem, self.told, self.solution.values)


def told_block(first_day: datetime.date, *done: PastSession) -> Block:
    """The solved block with what was done up to a day."""
    demo = solved("in-season")
    block, training = demo.block, demo.inputs.athlete.training
    revision = Revision(
        first_day=first_day, block=SOMEWHERE, routines=routines_of(block, first_day, training), done=done
    )
    return block.model_copy(update={"revision": revision})


def problem_of(told: Block, changes: Lines | None = None) -> Problem:
    """The problem of the rest, with some lines of the athlete's file changed."""
    inputs = solved("in-season").inputs
    if changes is not None:
        inputs = replace(inputs, athlete=changed(changes))
    return with_past(estimate_and_problem(inputs, START, since=since_of(told))[1], told)


def changed(changes: Lines) -> Athlete:
    return athlete("in-season-player", changes)


def rest_of(
    first_day: datetime.date, *done: PastSession, changes: Lines | None = None, most_cards: int | None = None
) -> Rest:
    told = told_block(first_day, *done)
    return rest_of_problem(problem_of(told, changes), told, solved("in-season").gap, most_cards)


def rest_of_problem(problem: Problem, told: Block, gap: Gap, most_cards: int | None = None) -> Rest:
    """The rest of any block, for a problem that knows its past. Raises as ``solve_rest`` does."""
    prices = problem.template.revise
    assert prices is not None
    solution = solve_rest(problem, WantedRest(told, prices, most_cards))
    references = References(SOMEWHERE, SOMEWHERE, SOMEWHERE, SOMEWHERE)
    return Rest(told, make_block(solution, gap, references, told, told.revision), solution)
