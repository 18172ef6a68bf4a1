"""Why there is no block: a smallest set of rules that cannot hold together, and the cheapest change that would do.

One "infeasible" from a solver is a claim to be checked: the final set is certified in whole numbers if its linear
relaxation allows, and otherwise asked again in another way. An answer that the budget did not reach counts as none.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import get_args

from planner.problem.model import Problem
from planner.rules.registry import rule_named
from planner.rules.rule import ClosingRule, Ease, Row, Step
from planner.solve.budgets import CONFLICT_BUDGET, QUESTION
from planner.solve.certificate import certified
from planner.solve.cp_model import SEED
from planner.solve.day_moves import EasedSport, MovedDay, eased_sport, moved_day
from planner.solve.feasibility import Asker, Budget, Question
from planner.solve.loosened_rows import Rebuild
from planner.solve.refute import is_structural, verdict
from planner.solve.repair import Repair, cheapest_rows, least_steps
from planner.solve.repeated_questions import RepeatedQuestions
from planner.solve.variable_ranges import variable_ranges


@dataclass(frozen=True)
class Conflict:
    """Rows that cannot hold together. ``minimal``: it is confirmed that there is a block without any one group of them.

    ``confirmed``: exact arithmetic, or a second and different search, agrees.
    ``needs``: if only the minutes of one day conflict, how many more the day needs.
    ``change``: what has to give way for a block, with all other rules kept; None if nothing was found.
    ``moved``: a training day moved to another weekday that gives a block too; ``eased``: otherwise, the line of the
    sport that gives one once it is eased.
    """

    rows: tuple[Row, ...]
    minimal: bool
    confirmed: bool = True
    needs: tuple[Step, ...] = ()
    change: Repair | None = None
    moved: MovedDay | None = None
    eased: EasedSport | None = None

    @property
    def rules(self) -> list[str]:
        return list(dict.fromkeys(row.rule for row in self.rows))

    @property
    def eases(self) -> list[Ease]:
        """What of the sport may be eased for these rules, the least first."""
        wanted = {ease for rule in self.rules for ease in rule_named(rule).sport_to_ease}
        return [ease for ease in get_args(Ease) if ease in wanted]


def find_conflict(
    problem: Problem, rows: Sequence[Row], rebuild: Rebuild | None = None, part: Sequence[Row] | None = None
) -> Conflict | None:
    """Shrink an infeasible set of hard rows, first by rule, then by week, then by place inside the rules left.

    ``rebuild`` makes the Problem of the same athlete with some lines changed; with it, another week is tried as a
    change: other training days, practices and matches eased. ``part``: some of the rows that are known to conflict.
    Returns None if infeasibility cannot be confirmed within the budget.
    """
    part = part or verdict(problem, rows, CONFLICT_BUDGET).part
    if part is None:
        return None
    asker = Asker(variable_ranges(problem), Budget(CONFLICT_BUDGET))
    kept, frame, minimal = _shrunk(asker, part, [row for row in rows if is_structural(row)])
    asker.budget.left += QUESTION
    together = [*frame, *kept]
    confirmed = certified(together, asker.ranges) or asker.holds(together, QUESTION, SEED + 1) is False
    rules = list(dict.fromkeys(row.rule for row in kept))
    one_day = all(rule_named(row.rule).loosened_by_minutes for row in kept) and len({row.at.slot for row in kept}) == 1
    needs = least_steps(problem, together, rules) if one_day else ()
    found = Conflict(tuple(kept), minimal, confirmed, needs)
    change = cheapest_rows(problem, [row for row in rows if row.price == 0], found.rules, part, rebuild)
    found = dataclasses.replace(found, change=change)
    if rebuild is None or not any(rule_named(rule).moving_days_may_help for rule in rules):
        return found
    return _with_other_week(found, problem, rebuild)


def _with_other_week(found: Conflict, problem: Problem, rebuild: Rebuild) -> Conflict:
    moved = moved_day(problem, rebuild)
    eased = eased_sport(problem, rebuild, found.eases) if moved is None else None
    return dataclasses.replace(found, moved=moved, eased=eased)


def coarse(row: Row) -> object:
    """What a row is about: a closed movement, or the week, day or phase without the movement."""
    rule, at = rule_named(row.rule), row.at
    if isinstance(rule, ClosingRule):
        return at.movement
    inside = next((part for part in (at.slot, at.entry, at.of, at.joint) if part is not None), None)
    other = row.other and row.other._replace(movement=None) if rule.spans_two_days else None
    return at.week, at.phase, inside, other


def _shrunk(asker: Asker, part: Sequence[Row], frame: Sequence[Row]) -> tuple[list[Row], list[Row], bool]:
    """The rows of the part that are needed, the structural rows they conflict with, and whether each is surely needed.

    ``frame``: all structural rows. Some rows are needed only as long as part of these is left out.
    """
    inner = [row for row in part if is_structural(row)]
    kept = [row for row in part if not is_structural(row)]
    kept.sort(key=lambda row: rule_named(row.rule).often_to_blame)  # what is tried last is more often what stays
    questions, sure = RepeatedQuestions(asker, inner, kept), True
    for key in (_rule, _when, _where):
        kept, sure = _needed(questions.holds, _grouped(kept, key))
    if not kept:  # the session shapes themselves are impossible: the library lacks a part, say
        kept, sure = _needed(lambda rows: asker.holds(rows, QUESTION), _grouped(inner, _where))
        return kept, [], sure
    if not sure:
        return kept, inner, False
    fewer, sure = _needed(RepeatedQuestions(asker, frame, kept, questions.points).holds, _grouped(kept, _where), size=1)
    return fewer, inner if len(fewer) == len(kept) else list(frame), sure


def _needed(holds: Question, groups: list[list[Row]], size: int | None = None) -> tuple[list[Row], bool]:
    """Drop ever smaller runs of groups while the rest still cannot hold together (a deletion filter by halves)."""
    kept, size = list(groups), size or max(1, len(groups) // 2)
    while True:
        index, removed, sure = 0, False, True
        while index < len(kept):
            rest = kept[:index] + kept[index + size :]
            answer = holds([row for group in rest for row in group])
            if answer is False:
                kept, removed = rest, True
            else:
                sure = sure and answer is not None
                index += size
        if size == 1 and (not removed or not sure):
            return [row for group in kept for row in group], sure
        size = max(1, size // 2)


def _rule(row: Row) -> str:
    return row.rule


def _when(row: Row) -> tuple[int | None, str | None]:
    return row.at.week, row.at.phase


def _where(row: Row) -> tuple[str, object]:
    return row.rule, coarse(row)


def _grouped(rows: Iterable[Row], key: Callable[[Row], object]) -> list[list[Row]]:
    groups: dict[object, list[Row]] = {}
    for row in rows:
        groups.setdefault(key(row), []).append(row)
    return list(groups.values())
