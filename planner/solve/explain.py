"""Where a block's numbers come from: the chain from test to sets, the waves, and the rules at their limit."""

from __future__ import annotations

from dataclasses import dataclass

from planner.domain.block import Block, Item, Session, Week
from planner.domain.gap_record import QualityLine
from planner.domain.movement import Movement
from planner.domain.template import SchemeWeek
from planner.domain.terms import LIFT_QUALITIES, Quality
from planner.problem.loads import own_maximum_kg
from planner.problem.model import RETEST, Problem
from planner.rules.recount import CountedWeek, count_block
from planner.rules.registry import gather_rows, rule_named
from planner.rules.rule import ClosingRule, Row
from planner.solve.from_block import block_values, movements_of
from planner.solve.next_best import Alternative, closed_by, instead, next_best, same_place
from planner.solve.preferences import movement_cost
from planner.solve.shortlist import only


@dataclass(frozen=True)
class Chain:
    """One quality: what the test says, what that does to the budget, and what the week gets."""

    line: QualityLine
    others: tuple[QualityLine, ...]  # further tests that the emphasis follows
    untilted_sets: float | None  # the template's, for this level and week, before the emphasis; None for speed
    band_low: float
    band_high: float
    got: float


@dataclass(frozen=True)
class Tight:
    """A row at its limit, and its sum in the block, in the row's whole numbers."""

    row: Row
    total: int


@dataclass(frozen=True)
class ItemStory:
    item: Item
    movement: Movement
    wave: SchemeWeek | None  # the line of the template's wave
    maximum_kg: float | None
    alternative: Alternative | None


@dataclass(frozen=True)
class MovementStory:
    """Where a movement is in the block; or what closes it; or what is in its place, and what swapping would cost.

    ``points``: what one day of a phase with it costs by the template's preferences.
    """

    movement: Movement
    places: tuple[tuple[Week, Session, Item], ...]
    closed: tuple[tuple[str, str], ...]
    points: int
    chosen: Movement | None  # in its place
    cost: Alternative | None  # the movement instead of the chosen one, or the next best instead of the movement


@dataclass(frozen=True)
class SessionStory:
    week: Week
    session: Session
    chains: tuple[Chain, ...]
    tight: tuple[Tight, ...]
    items: tuple[ItemStory, ...]


def explain_session(block: Block, problem: Problem, week: int, session: int) -> SessionStory | None:
    """The story of one session, or None if the block has no such week or session."""
    found = next((w for w in block.weeks if w.number == week), None)
    if found is None or not 1 <= session <= len(found.sessions):
        return None
    chosen = found.sessions[session - 1]
    slot = problem.slot_on(week, chosen.date)
    here = (week, slot)
    tight = tuple(at for at in tight_rows(block, problem) if here in at.row.days)
    items = tuple(
        ItemStory(item, movement, _wave(problem, movement, week), own_maximum_kg(problem, movement), alternative)
        for item in chosen.items
        if item.movement != RETEST and (movement := problem.library.get(item.movement)) is not None
        for alternative in (None if slot is None else next_best(block, problem, week, slot, movement),)
    )
    return SessionStory(found, chosen, week_chains(block, problem, week), tight, items)


def explain_movement(block: Block, problem: Problem, movement: Movement) -> MovementStory:
    """Why a movement is in the block, or why it is not and what it would cost."""
    every = [(w, s, i) for w in block.weeks for s in w.sessions for i in s.items if i.movement != RETEST]
    places = tuple(place for place in every if place[2].movement == movement.id)
    closed, points = tuple(closed_by(problem, movement)), movement_cost(problem, movement)
    if places:
        week, session, _ = places[0]
        slot = problem.slot_on(week.number, session.date)
        rival = None if slot is None else next_best(block, problem, week.number, slot, movement)
        return MovementStory(movement, places, closed, points, None, rival)
    alike = (
        (week, slot, other)
        for week, session, item in every
        if not closed and (other := problem.library.get(item.movement)) and same_place(movement, other)
        if (slot := problem.slot_on(week.number, session.date)) is not None
    )
    first = next(alike, None)
    if first is None:
        return MovementStory(movement, places, closed, points, None, None)
    week, slot, chosen = first
    cost = instead(block, problem, problem.phase_of(week.number), slot, chosen, movement)
    return MovementStory(movement, places, closed, points, chosen, cost)


def week_chains(block: Block, problem: Problem, week: int) -> tuple[Chain, ...]:
    counted = next(w for w in count_block(block, problem).weeks if w.number == week)
    lines: dict[Quality, list[QualityLine]] = {}
    for line in block.gap.qualities:
        if line.counts:  # only what the emphasis follows: other tests may say more but are not trusted
            lines.setdefault(line.quality, []).append(line)
    return tuple(_chain(problem, counted, quality, *those) for quality, those in lines.items())


def _chain(problem: Problem, week: CountedWeek, quality: Quality, line: QualityLine, *others: QualityLine) -> Chain:
    bands = problem.bands[week.number]
    if quality in LIFT_QUALITIES:
        band, plain = bands.quarter_sets[quality], problem.level.weeks[week.number - 1].sets.get(quality)
        return Chain(line, others, plain, band.low / 4, band.high / 4, week.quality_sets(quality))
    return Chain(line, others, None, bands.sprints.low, bands.sprints.high, week.sprint_efforts)


def tight_rows(block: Block, problem: Problem) -> list[Tight]:
    """Rows that the block meets exactly: one unit more (or less) would break them."""
    inside = only(problem, movements_of(block) & set(problem.library.movements))
    values = block_values(block, inside)
    found = []
    for row in gather_rows(inside):
        rule, total = rule_named(row.rule), sum(c * values[k] for c, k in row.terms)
        if total in (row.high, row.low) and total and not rule.structural and not isinstance(rule, ClosingRule):
            found.append(Tight(row, total))
    return found


def _wave(problem: Problem, movement: Movement, week: int) -> SchemeWeek | None:
    scheme = problem.template.schemes.get(movement.dose.scheme)
    return None if scheme is None else scheme.weeks[week - 1]
