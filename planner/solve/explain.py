"""Where a block's numbers come from: the chain from test to sets, the rules at their limit, the next-best movement."""

from __future__ import annotations

import dataclasses
from dataclasses import dataclass

from ortools.sat.python import cp_model

from planner.domain.block import Block, Item, QualityLine, Session, Week
from planner.domain.movement import Movement
from planner.domain.terms import DAYS, LIFT_QUALITIES, Quality
from planner.problem.loads import own_maximum_kg
from planner.problem.model import RETEST, Problem, in_key
from planner.rules.base import ClosingRule, Row
from planner.rules.recount import CountedWeek, count_block
from planner.rules.registry import all_rules, rule_by_id
from planner.solve.cp_model import build_model, solver
from planner.solve.from_block import block_values, movements_of
from planner.solve.matrix import gather_rows
from planner.solve.preferences import movement_cost
from planner.solve.shortlist import only
from planner.solve.stages import units_missed

TRY_BUDGET = 2.0  # deterministic time for "would the block hold with this movement instead?"


@dataclass(frozen=True)
class Chain:
    """One quality: what the test says, what it did to the budget, what the week got of it."""

    line: QualityLine
    untilted_sets: float | None  # the template's line for this level and week, before emphasis; None for speed
    band_low: float
    band_high: float
    got: float
    unit: str


@dataclass(frozen=True)
class Alternative:
    """The next-best movement in the same place: ``points`` by which the template likes it less; ``fits``: bands met."""

    movement: Movement
    points: int
    fits: bool | None


@dataclass(frozen=True)
class ItemStory:
    item: Item
    movement: Movement
    wave: str  # the line of the template's wave
    maximum_kg: float | None
    alternative: Alternative | None


@dataclass(frozen=True)
class SessionStory:
    week: Week
    session: Session
    chains: tuple[Chain, ...]
    tight: tuple[Row, ...]
    items: tuple[ItemStory, ...]


def explain_session(block: Block, problem: Problem, week: int, session: int) -> SessionStory | None:
    """The story of one session, or None where the block has no such week or session."""
    found = next((w for w in block.weeks if w.number == week), None)
    if found is None or not 1 <= session <= len(found.sessions):
        return None
    chosen = found.sessions[session - 1]
    slot = _slot(problem, chosen)
    tight = tuple(row for row in tight_rows(block, problem) if f"w{week}/d{slot}" in row.scope)
    items = tuple(
        ItemStory(item, movement, _wave(problem, movement, week), own_maximum_kg(problem, movement), alternative)
        for item in chosen.items
        if item.movement != RETEST and (movement := problem.library.get(item.movement)) is not None
        for alternative in (next_best(block, problem, week, slot, movement),)
    )
    return SessionStory(found, chosen, week_chains(block, problem, week), tight, items)


def week_chains(block: Block, problem: Problem, week: int) -> tuple[Chain, ...]:
    counted = next(w for w in count_block(block, problem).weeks if w.number == week)
    lines = {line.quality: line for line in block.gap.qualities}
    return tuple(_chain(problem, counted, quality, line) for quality, line in lines.items())


def _chain(problem: Problem, week: CountedWeek, quality: Quality, line: QualityLine) -> Chain:
    bands = problem.bands[week.number]
    if quality in LIFT_QUALITIES:
        band, plain = bands.quarter_sets[quality], problem.level.weeks[week.number - 1].sets.get(quality)
        return Chain(line, plain, band.low / 4, band.high / 4, week.quality_sets(quality), "sets")
    return Chain(line, None, bands.sprints.low, bands.sprints.high, week.sprint_efforts, "sprint efforts")


def tight_rows(block: Block, problem: Problem) -> list[Row]:
    """Rows of rules of the trade that the block meets exactly: one unit more (or less) and they would be broken."""
    inside = only(problem, movements_of(block) & set(problem.library.movements))
    values = block_values(block, inside)
    found = []
    for row in gather_rows(inside):
        rule = rule_by_id(row.rule)
        if rule is None or rule.structural or isinstance(rule, ClosingRule):
            continue
        total = sum(c * values[k] for c, k in row.terms)
        if total and (total == row.high or total == row.low):
            found.append(row)
    return found


def next_best(block: Block, problem: Problem, week: int, slot: int, movement: Movement) -> Alternative | None:
    """Of open movements of the same part and pattern, the one the template likes best; None where there is none."""
    phase = problem.phase_of(week)
    there = {i.movement for w in block.weeks if w.phase == phase for s in w.sessions for i in s.items}
    rivals = [
        m for m in problem.movements if m.id not in there and _same_place(m, movement) and not closed_by(problem, m)
    ]
    if not rivals:
        return None
    best = min(rivals, key=lambda m: (movement_cost(problem, m), m.id))
    points = movement_cost(problem, best) - movement_cost(problem, movement)
    return Alternative(best, points, _fits(block, problem, phase, slot, movement, best))


def closed_by(problem: Problem, movement: Movement) -> list[tuple[str, str]]:
    """(rule id, reason) of every rule that closes the movement to this athlete."""
    found = []
    for rule in all_rules():
        if isinstance(rule, ClosingRule):
            reason = rule.reason(problem, movement)
            if reason is not None:
                found.append((rule.id, reason))
    return found


def _same_place(rival: Movement, movement: Movement) -> bool:
    tier = movement.jump.tier if movement.jump else None
    rival_tier = rival.jump.tier if rival.jump else None
    shares = bool(set(rival.patterns) & set(movement.patterns)) or not movement.patterns
    return rival.part == movement.part and shares and rival_tier == tier


def _fits(block: Block, problem: Problem, phase: str, slot: int, movement: Movement, rival: Movement) -> bool | None:
    """Whether every band the block met could be met with the rival in the movement's place; None: no answer in time."""
    wider = only(problem, (movements_of(block) | {rival.id}) & set(problem.library.movements))
    values = block_values(block, wider)
    rows = [dataclasses.replace(row, price=0) if not units_missed(row, values) else row for row in gather_rows(wider)]
    built = build_model(wider, rows)
    for key, value in ((in_key(phase, slot, rival.id), 1), (in_key(phase, slot, movement.id), 0)):
        if key not in built.variables:
            return False
        built.model.add(built.variables[key] == value)
    status = solver(TRY_BUDGET).solve(built.model)
    if status == cp_model.INFEASIBLE:
        return False
    return True if status in (cp_model.OPTIMAL, cp_model.FEASIBLE) else None


def _slot(problem: Problem, session: Session) -> int:
    return next((s.number for s in problem.slots if s.day == DAYS[session.date.weekday()]), 0)


def _wave(problem: Problem, movement: Movement, week: int) -> str:
    scheme = problem.template.schemes.get(movement.dose.scheme)
    if scheme is None:
        return ""
    line = scheme.weeks[week - 1]
    sets = f"{line.sets[0]} to {line.sets[1]} sets" if line.sets[0] < line.sets[1] else f"{line.sets[0]} sets"
    parts = [f"{sets} of {line.reps}" if line.reps is not None and line.hold_s is None else sets]
    parts += [f"held {line.hold_s} s"] if line.hold_s is not None else []
    parts += [f"at {line.percent:g} %"] if line.percent is not None else []
    parts += [f"{line.reserve} in reserve"] if line.reserve is not None else []
    return f"{movement.dose.scheme}: {', '.join(parts)}"
