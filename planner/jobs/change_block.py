"""A coach's change of one session of a block, with all that hangs on it, and the rules that it breaks."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from planner.audit import audit, breach_finding
from planner.domain.block import Block, Edit, Session, Week
from planner.domain.findings import Finding, UserError
from planner.domain.terms import DAYS, Day
from planner.files.document import Loaded
from planner.files.dump import block_to_yaml
from planner.files.load import load_block
from planner.files.suggest import did_you_mean, movement_hint
from planner.jobs.check_block import problem_of
from planner.problem.model import Problem
from planner.problem.training_days import ONE_DAY
from planner.solve.make_change import CannotChange, changed, moved, redone, swapped, with_sets

Change = Callable[[Session, Week], Session | None]


@dataclass(frozen=True)
class AskedChange:
    """One change: ``swap`` of a movement for another, ``sets`` of an item (its number from 1), ``move`` or ``drop``.

    ``weeks``: first and last week that it is made in, on the session's weekday; None: in the session's own.
    """

    session: str
    swap: tuple[str, str] | None = None
    sets: tuple[int, int] | None = None
    move: Day | None = None
    drop: bool = False
    weeks: tuple[int, int] | None = None


@dataclass(frozen=True)
class Changed:
    """The block before and after, the rules that the change breaks (hard ones as warnings), and inputs that changed."""

    old: Block
    new: Block
    broken: list[Finding]
    told: list[Finding]


def change_block(path: Path, asked: AskedChange | None) -> Changed:
    """The block at ``path`` with the change made; None: only its sums are redone after an edit by hand.

    Raises UserError where the block has no such session, item or movement, or does not fit its files.
    """
    loaded = load_block(path)
    block = loaded.require()
    problem, told = problem_of(block, loaded, path.parent)
    try:
        new = redone(block, problem) if asked is None else redone(_made(block, problem, loaded, asked), problem, block)
    except CannotChange as error:
        raise UserError([Finding(loaded.path, 0, 0, "cannot-change", str(error), error.hint)]) from None
    before = {(breach.rule, breach.sentence) for breach in audit(block, problem)}
    after = [
        breach
        for breach in audit(new, problem_of(new, loaded, path.parent)[0])
        if (breach.rule, breach.sentence) not in before
    ]
    return Changed(block, new, [_as_warning(breach_finding(breach, loaded.path)) for breach in after], told)


def loses_comments(path: Path, block: Block) -> bool:
    """Whether the file has comments or a layout that writing it anew would lose."""
    return path.read_text("utf-8") != block_to_yaml(block)


def _as_warning(finding: Finding) -> Finding:
    """The coach has the last word: what the change breaks is said, and the change is made."""
    return replace(finding, level="warning") if finding.level == "error" else finding


def _made(block: Block, problem: Problem, loaded: Loaded[Block], asked: AskedChange) -> Block:
    sessions = _sessions(block, loaded, asked)
    for session in sessions:
        if session.date < problem.first_day:
            raise CannotChange(f"{session.id} is over", f"the block is planned from {problem.first_day} on")
    change, edits = _change(asked, problem, loaded, sessions)
    return changed(block, [session.id for session in sessions], change, edits)


def _sessions(block: Block, loaded: Loaded[Block], asked: AskedChange) -> list[Session]:
    """The session that was named, or those on its weekday in the weeks that were."""
    every = {session.id: session for session in block.sessions}
    if asked.session not in every:
        hint = did_you_mean(asked.session, every) or f"it has {', '.join(list(every)[:4])} and so on"
        message = f"the block has no session '{asked.session}'"
        raise UserError([Finding(loaded.path, 0, 0, "unknown-session", message, hint)])
    named = every[asked.session]
    if asked.weeks is None:
        return [named]
    first, last = asked.weeks
    weeks = [week for week in block.weeks if first <= week.number <= last]
    found = [s for week in weeks for s in week.sessions if s.date.weekday() == named.date.weekday()]
    if not found:
        raise CannotChange(f"no week from {first} to {last} has a session on {named.date:%A}", "name other weeks")
    return found


def _change(
    asked: AskedChange, problem: Problem, loaded: Loaded[Block], sessions: Sequence[Session]
) -> tuple[Change, list[Edit]]:
    """How a session is changed, and the lines that say so in the block."""
    if asked.swap is not None:
        old, new = asked.swap
        if new not in problem.library:
            hint = movement_hint(new, problem.library)
            message = f"'{new}' is not in the library"
            raise UserError([Finding(loaded.path, 0, 0, "unknown-movement", message, hint)])
        edits = [Edit(session=s.id, what="swap", movement=old, into=new) for s in sessions]
        return lambda session, week: swapped(session, old, new, week.number, problem), edits
    if asked.sets is not None:
        number, sets = asked.sets
        held = {s.id: s.items[number - 1].movement for s in sessions if 1 <= number <= len(s.items)}
        edits = [Edit(session=name, what="sets", movement=movement, sets=sets) for name, movement in held.items()]
        return lambda session, week: with_sets(session, number, sets, week.number, problem), edits
    if asked.move is not None:
        day = asked.move
        edits = [Edit(session=s.id, what="move", date=s.date) for s in sessions]
        return lambda session, week: moved(session, _date(week, day), week), edits
    return lambda session, week: None, [Edit(session=s.id, what="drop", date=s.date) for s in sessions]


def _date(week: Week, day: Day) -> datetime.date:
    return next(date for n in range(7) if DAYS[(date := week.start + n * ONE_DAY).weekday()] == day)
