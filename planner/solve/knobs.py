"""What a coach could change so that a row gives way, and the rows after such changes.

Lines of the athlete's file give way, and the template's patterns and floors. Rules that guard the body (pain, youth,
growth, joint stress, hours between hard days) never do.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from planner.domain.base import LONGEST_DAY_minutes
from planner.problem.model import Problem
from planner.rules.base import ClosingRule, Row
from planner.rules.equipment import missing
from planner.rules.registry import rule_by_id
from planner.solve.athlete_lines import LINES, Rebuild, Step, changed_athlete
from planner.solve.relax import reach
from planner.solve.variables import variable_ranges

ALWAYS = ("session-minutes", "pattern-cover", "quality-floor", "contacts-floor")
OPENABLE = ("bans", "runway", "level", "prerequisites", "high-tier-gate")


@dataclass(frozen=True)
class Knob:
    """What may give way by ``most`` steps at ``price`` each; ``size`` of the row's whole numbers come with a step."""

    rule: str
    what: str
    size: int
    price: int
    most: int = 1


Given = Mapping[Row, tuple[Knob, ...]]


def given_by(problem: Problem, rows: Sequence[Row], rules: Sequence[str]) -> dict[Row, tuple[Knob, ...]]:
    """What of these rules may give way."""
    return {row: tuple(_knobs(problem, row)) for row in rows if row.rule in rules}


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


def eased(rows: Sequence[Row], given: Given, steps: Mapping[Knob, int]) -> list[Row]:
    """The hard rows after these steps."""
    knobs = {(row.rule, row.scope): found for row, found in given.items()}
    hard = [row for row in rows if row.price == 0]
    return [_eased_row(row, knobs.get((row.rule, row.scope), ()), steps) for row in hard] if steps else hard


def _eased_row(row: Row, knobs: tuple[Knob, ...], steps: Mapping[Knob, int]) -> Row:
    amount = min((knob.size * steps.get(knob, 0) for knob in knobs), default=0)
    if not amount:
        return row
    return replace(row, low=row.low - amount) if row.low is not None else replace(row, high=(row.high or 0) + amount)


def loosened(row: Row, knobs: tuple[Knob, ...]) -> Iterator[Row]:
    """The row once for each of its knobs: it gives way where all of them do."""
    if not knobs:
        yield row
    for knob in knobs:
        sign = knob.size if row.low is not None else -knob.size
        yield replace(row, terms=(*row.terms, (sign, key_of(knob))))


def key_of(knob: Knob) -> str:
    return f"gives/{knob.rule}/{knob.what}"


def opened(steps: Mapping[Knob, int]) -> set[str]:
    return {knob.what for knob, amount in steps.items() if amount and knob.rule in OPENABLE}


def after(problem: Problem, steps: Mapping[Knob, int], rebuild: Rebuild | None) -> tuple[Problem, dict[Knob, int]]:
    """The Problem of the athlete's file after those steps that are lines of it; and the steps that are not."""
    lines = {knob: amount for knob, amount in steps.items() if knob.rule in LINES}
    if rebuild is None or not lines:
        return problem, dict(steps)
    changed = changed_athlete(problem.athlete, [Step(knob.rule, knob.what, n) for knob, n in lines.items() if n])
    return rebuild(changed), {knob: amount for knob, amount in steps.items() if knob not in lines}
