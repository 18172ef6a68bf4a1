"""What was done of a running block, as values of variables, and the rest of it as it was planned."""

from __future__ import annotations

import dataclasses

from planner.domain.block import Block, Session
from planner.domain.terms import DAYS, Day
from planner.problem.model import Entry, Problem
from planner.problem.variable import Values, Variable, sets_key
from planner.rules.as_done import as_done, with_sessions
from planner.rules.recount import count_session
from planner.solve.from_block import block_values
from planner.solve.variable_ranges import variable_ranges


def with_past(problem: Problem, block: Block) -> Problem:
    """The problem of a revised block with what was done as values. ``block`` says what that is, in its revision.

    Sets, hard days and the movements of a phase are those done; a day's kind of session is the one planned.
    """
    planned, done = block_values(block, problem), block_values(_on_planned_days(block, problem), problem)
    keys = [key for key in variable_ranges(problem) if _is_past(problem, key)]
    past = {key: (planned if key.kind == "takes" else done)[key] for key in keys}
    kept = _kept(problem, block, planned)
    entries = {day: tuple(_with_room(one, kept) for one in those) for day, those in problem.entries.items()}
    plan = {key: planned[key] for key in keys}
    return dataclasses.replace(problem, past=past, past_plan=plan, kept=kept, entries=entries)


def _with_room(entry: Entry, kept: Values) -> Entry:
    """The entry with room for the sets that a coach gave it, where its wave has none."""
    sets, dosage = kept.get(entry.key), entry.dosage
    if sets is None or dosage.low_sets <= sets <= dosage.high_sets or not sets:
        return entry
    low, high = min(dosage.low_sets, sets), max(dosage.high_sets, sets)
    return dataclasses.replace(entry, dosage=dataclasses.replace(dosage, low_sets=low, high_sets=high))


def _kept(problem: Problem, block: Block, planned: Values) -> Values:
    """Sets that a coach changed by hand and movements swapped, in sessions still to come."""
    sessions = {session.id: (week.number, session.date) for week in block.weeks for session in week.sessions}
    kept: Values = {}
    for edit in block.edits:
        week, date = sessions.get(edit.session, (0, problem.start))
        slot = problem.slot_on(week, date)
        if slot is not None and date >= problem.first_day:
            named = [name for name in (edit.movement, edit.into) if name is not None and edit.what in ("swap", "sets")]
            kept |= {key: planned[key] for name in named if (key := sets_key(week, slot, name)) in planned}
    return kept


def planned_values(problem: Problem, block: Block) -> Values:
    """Every variable as the block in use has it; where training days have changed, the old ones in their order."""
    values = block_values(block, problem, days_moved(problem, block))
    return {key: problem.past.get(key, value) for key, value in values.items()}


def days_moved(problem: Problem, block: Block) -> dict[Day, Day]:
    """Weekdays of sessions still to come that the athlete no longer trains on, each with the new one in its place."""
    whole = [w for w in block.weeks if w.start >= problem.first_day]
    before = {DAYS[s.date.weekday()] for week in whole for s in week.sessions}
    now = {slot.day for slot in problem.slots if slot.number in problem.slots_of(problem.last_week)}
    gone, new = sorted(before - now, key=DAYS.index), sorted(now - before, key=DAYS.index)
    return dict(zip(gone, new, strict=False))


def _on_planned_days(block: Block, problem: Problem) -> Block:
    """The past as done, each session in its planned place, with what has sets, and hard where that makes it so."""
    planned = {s.id: s.date for s in block.sessions}

    def placed(session: Session) -> Session:
        hard = count_session(session, problem).is_hard(problem)
        items = tuple(item for item in session.items if item.sets)
        return session.model_copy(update={"date": planned[session.id], "hard_day": hard, "items": items})

    return with_sessions(as_done(block, problem), placed)


def _is_past(problem: Problem, key: Variable) -> bool:
    """Whether a variable is settled: of a day or a phase that is over, or of a routine that has begun."""
    at = key.at
    if at.week is not None:
        return problem.is_over(at)
    phases = [phase for phase in problem.phases if at.slot in phase.slots and at.phase in (None, phase.id)]
    days = [problem.is_past(week, at.slot) for phase in phases for week in phase.weeks if at.slot is not None]
    return any(days) if key.kind == "takes" else bool(days) and all(days)
