"""The cheapest change that gives a block: minutes of a day, a ban, a pin, a piece of equipment, a training day moved.

What gives way is what a coach can change: lines of the athlete's file, the template's patterns and floors. Rules that
guard the body (pain, youth, growth, joint stress, hours between hard days) never do.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import cast

from ortools.sat.python import cp_model

from planner.domain.base import LONGEST_DAY_minutes
from planner.domain.terms import Day
from planner.problem.model import Problem
from planner.rules.base import ClosingRule, Row
from planner.rules.equipment import missing
from planner.rules.registry import rule_by_id
from planner.solve.asking import Asker, Budget, plain_model, simplified
from planner.solve.athlete_lines import LINES, Rebuild, Step, changed_athlete
from planner.solve.cp_model import solver
from planner.solve.matrix import gather_rows
from planner.solve.refute import holds_with_few, refuted_part
from planner.solve.relax import Ranges, reach
from planner.solve.variables import variable_ranges

PART_BUDGET, ENOUGH_BUDGET, WHOLE_BUDGET = 3.0, 4.0, 10.0  # deterministic time for one question
MOST_TURNS = 8
MOST_MORE_minutes = 64  # a day, beyond what is needed at least
ALWAYS = ("session-minutes", "pattern-cover", "quality-floor", "contacts-floor")
OPENABLE = ("bans", "runway", "level", "prerequisites", "high-tier-gate")


@dataclass(frozen=True)
class Change:
    """Steps that together give a block. ``cheapest``: proved that no other steps of these kinds cost less."""

    steps: tuple[Step, ...]
    price: int
    cheapest: bool


@dataclass(frozen=True)
class Knob:
    """What may give way by ``most`` steps at ``price`` each; ``size`` of the row's whole numbers come with a step."""

    rule: str
    what: str
    size: int
    price: int
    most: int = 1


Given = Mapping[Row, tuple[Knob, ...]]


def cheapest_rows(
    problem: Problem, hard: Sequence[Row], rules: Sequence[str], part: Sequence[Row], rebuild: Rebuild | None = None
) -> Change | None:
    """The cheapest steps of these rules (and of minutes, patterns and floors) with which there is a block.

    ``part``: rows that cannot hold together, to begin with. A part of the block that cannot hold says what it needs at
    least; with so much given, the whole is asked again, and a further part joins where it still cannot hold. What then
    holds is the cheapest: no less would do for the parts.
    """
    given = {row: tuple(_knobs(problem, row)) for row in hard if row.rule in (*rules, *ALWAYS)}
    ranges, needed, steps = variable_ranges(problem), dict[Row, None](), dict[Knob, int]()
    unkept: Sequence[Row] | None = part
    for _ in range(MOST_TURNS):
        if steps:
            unkept, holds = _answer(problem, given, steps, rebuild)
            if holds:
                return _change(steps, cheapest=True)
        if unkept is None:
            break
        origin = {(row.rule, row.scope) for row in unkept}
        needed.update(dict.fromkeys(row for row in hard if (row.rule, row.scope) in origin))
        found = _least(list(needed), given, ranges, PART_BUDGET)
        if found is None or found == steps:
            break
        steps = found
    if "session-minutes" not in {*rules, *(knob.rule for knob, amount in steps.items() if amount)}:
        return None
    return _more_minutes(problem, given, steps, rebuild)


def least_steps(problem: Problem, rows: Sequence[Row], rules: Sequence[str]) -> tuple[Step, ...]:
    """The cheapest steps of these rules for these rows alone; none where the budget did not suffice."""
    given = {row: tuple(_knobs(problem, row)) for row in rows if row.rule in rules}
    found = _least(rows, given, variable_ranges(problem), PART_BUDGET) or {}
    return tuple(Step(knob.rule, knob.what, amount) for knob, amount in found.items() if amount)


def _more_minutes(problem: Problem, given: Given, steps: Mapping[Knob, int], rebuild: Rebuild | None) -> Change | None:
    """What the parts need did not do, or could not be shown to: more minutes on the same days, until there is a block.

    Where the last too little and the first enough lie minutes apart, what lies between is tried as well.
    """
    steps = _shared(problem, given, steps)
    enough: dict[Knob, int] | None = None
    low, high = 0, 1
    while enough is None and high <= MOST_MORE_minutes:
        enough = _if_enough(problem, given, _longer(steps, high), rebuild)
        low, high = (low, high) if enough else (high, 2 * high)
    while enough is not None and high - low > 1:
        middle = (low + high) // 2
        found = _if_enough(problem, given, _longer(steps, middle), rebuild)
        enough, low, high = (found, low, middle) if found else (enough, middle, high)
    return None if enough is None else _change(enough, cheapest=False)


def _shared(problem: Problem, given: Given, steps: Mapping[Knob, int]) -> dict[Knob, int]:
    """The same minutes over all days no longer than those named: an hour on one day is no coach's answer.

    Where none is named, over the shortest.
    """
    minutes = {slot.day: slot.gym_minutes for slot in problem.slots}
    longer = {knob: amount for knob, amount in steps.items() if amount and knob.rule == "session-minutes"}
    most = max((minutes[_day(knob)] for knob in longer), default=min(minutes.values()))
    days = [knob for found in given.values() for knob in found if knob.rule == "session-minutes"]
    short = [knob for knob in dict.fromkeys(days) if minutes[_day(knob)] <= most]
    each = sum(longer.values()) // max(1, len(short))
    others = {knob: amount for knob, amount in steps.items() if knob.rule != "session-minutes"}
    return {**others, **dict.fromkeys(short, each)}


def _day(knob: Knob) -> Day:
    return cast("Day", knob.what)


def _longer(steps: Mapping[Knob, int], minutes: int) -> dict[Knob, int]:
    return {knob: amount + (minutes if knob.rule == "session-minutes" else 0) for knob, amount in steps.items()}


def _if_enough(
    problem: Problem, given: Given, steps: dict[Knob, int], rebuild: Rebuild | None
) -> dict[Knob, int] | None:
    other, left = _after(problem, steps, rebuild)
    rows = _eased(gather_rows(other), given, left)
    asker = Asker(variable_ranges(other), Budget(ENOUGH_BUDGET))
    return steps if holds_with_few(asker, other, rows, ENOUGH_BUDGET / 2, _opened(left)) else None


def _answer(
    problem: Problem, given: Given, steps: Mapping[Knob, int], rebuild: Rebuild | None
) -> tuple[Sequence[Row] | None, bool]:
    """As ``refuted_part``, for the athlete whose lines are changed by the steps."""
    other, left = _after(problem, steps, rebuild)
    return refuted_part(other, _eased(gather_rows(other), given, left), WHOLE_BUDGET, _opened(left))


def _opened(steps: Mapping[Knob, int]) -> set[str]:
    return {knob.what for knob, amount in steps.items() if amount and knob.rule in OPENABLE}


def _after(problem: Problem, steps: Mapping[Knob, int], rebuild: Rebuild | None) -> tuple[Problem, dict[Knob, int]]:
    """The Problem of the athlete's file after those steps that are lines of it; and the steps that are not."""
    lines = {knob: amount for knob, amount in steps.items() if knob.rule in LINES}
    if rebuild is None or not lines:
        return problem, dict(steps)
    changed = changed_athlete(problem.athlete, [Step(knob.rule, knob.what, n) for knob, n in lines.items() if n])
    return rebuild(changed), {knob: amount for knob, amount in steps.items() if knob not in lines}


def _change(steps: Mapping[Knob, int], *, cheapest: bool) -> Change | None:
    found = tuple(Step(knob.rule, knob.what, amount) for knob, amount in steps.items() if amount)
    price = sum(knob.price * amount for knob, amount in steps.items())
    return Change(found, price, cheapest) if found else None


def _eased(rows: Sequence[Row], given: Given, steps: Mapping[Knob, int]) -> list[Row]:
    """The hard rows after these steps."""
    knobs = {(row.rule, row.scope): found for row, found in given.items()}
    hard = [row for row in rows if row.price == 0]
    return [_eased_row(row, knobs.get((row.rule, row.scope), ()), steps) for row in hard] if steps else hard


def _eased_row(row: Row, knobs: tuple[Knob, ...], steps: Mapping[Knob, int]) -> Row:
    amount = min((knob.size * steps.get(knob, 0) for knob in knobs), default=0)
    if not amount:
        return row
    return replace(row, low=row.low - amount) if row.low is not None else replace(row, high=(row.high or 0) + amount)


def _least(rows: Sequence[Row], given: Given, ranges: Ranges, budget: float) -> dict[Knob, int] | None:
    """The cheapest steps for these rows, proved; None where the budget did not suffice or no steps do."""
    solved = _minimised(rows, given, ranges, budget)
    return solved[0] if solved is not None and solved[1] else None


def _minimised(rows: Sequence[Row], given: Given, ranges: Ranges, budget: float) -> tuple[dict[Knob, int], bool] | None:
    """Steps for these rows and whether none are cheaper; None where none were found."""
    knobs = {_key(knob): knob for row in rows for knob in given.get(row, ())}
    loosened = [made for row in rows for made in _loosened(row, given.get(row, ()))]
    simple = simplified(loosened, {**ranges, **{key: (0, knob.most) for key, knob in knobs.items()}})
    if simple is None or budget <= 0:
        return None
    model, variables = plain_model(*simple)
    used = {key: variable for key, variable in variables.items() if key in knobs}
    model.minimize(cp_model.LinearExpr.weighted_sum(list(used.values()), [knobs[key].price for key in used]))
    solved = solver(budget)
    status = solved.solve(model)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return None
    return {knobs[key]: solved.value(variable) for key, variable in used.items()}, status == cp_model.OPTIMAL


def _key(knob: Knob) -> str:
    return f"gives/{knob.rule}/{knob.what}"


def _loosened(row: Row, knobs: tuple[Knob, ...]) -> Iterator[Row]:
    """The row once for each of its knobs: it gives way where all of them do."""
    if not knobs:
        yield row
    for knob in knobs:
        sign = knob.size if row.low is not None else -knob.size
        yield replace(row, terms=(*row.terms, (sign, _key(knob))))


def _knobs(problem: Problem, row: Row) -> Iterator[Knob]:
    """What a coach could change so that this row gives way; none: it stands. Several: all of them are needed."""
    rule, prices = rule_by_id(row.rule), problem.template.changes
    week, *rest = row.scope.split("/")
    if row.rule == "session-minutes":
        slot = next(s for s in problem.slots if rest == [f"d{s.number}"])
        yield Knob(row.rule, slot.day, 60, prices.minute, LONGEST_DAY_minutes)
    elif row.rule == "equipment":
        for thing in missing(problem, problem.library[rest[-1]]):
            yield Knob(row.rule, thing, 1, prices.equipment)
    elif isinstance(rule, ClosingRule):
        if row.rule in OPENABLE and not (problem.youth and row.rule in ("level", "high-tier-gate")):
            yield Knob(row.rule, rest[-1], 1, prices.movement)
    elif row.rule == "pins":
        yield Knob(row.rule, rest[0], 1, prices.pin)
    elif row.rule == "dates":
        key = (int(week[1:]), int(rest[0][1:]))
        most = reach(row.terms, variable_ranges(problem))[1]
        yield Knob(row.rule, problem.dates[key].isoformat(), most, prices.away_date)
    elif row.rule == "pattern-cover":
        yield Knob(row.rule, row.scope, 1, prices.pattern_week)
    elif row.rule == "quality-floor":
        yield Knob(row.rule, row.scope, 1, prices.quarter_set, row.low or 0)
    elif row.rule == "contacts-floor":
        yield Knob(row.rule, row.scope, 1, prices.contact, row.low or 0)
