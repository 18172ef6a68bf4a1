"""What a block that follows another takes over from it, what its outcome changes, and what is new: a minute's read."""

from __future__ import annotations

from collections.abc import Iterator

from planner.domain.athlete import Athlete
from planner.domain.block import Block, Item
from planner.domain.block_before import KnownMovement
from planner.domain.terms import side_and_joint
from planner.estimate.words import Words, words_of
from planner.report.next_block import NextBlock
from planner.report.terminal import wrap
from planner.rules.figure_words import counted, listed
from planner.rules.jump_ladder import rung_in_words

MAIN = "main-lift"


def next_block_text(of: NextBlock, new: Block, athlete: Athlete) -> str:
    """``new``: the block that was planned; ``athlete``: as in the file."""
    lines = [*_from_where(of), *_what_next(of), *_load(of, athlete), *_maxima(of, athlete), *_movements(of, new)]
    lines += [*_ladders(of, words_of(athlete)), *_pain(of)]
    return "\n".join([f"After {of.path}", *(wrap(line, "  ") for line in lines)]) + "\n"


def _from_where(of: NextBlock) -> Iterator[str]:
    last = of.before.last_hard_day
    days = counted(of.rested, "easier day")
    yield f"Starts on {of.start:%a} {of.start}, after {days}: the last hard work or test was on {last:%a} {last}."
    if of.told is None:
        yield "It has no log, so it counts as done as it was planned."
    elif of.told.open_sessions:
        names = listed([session.id for session in of.told.open_sessions])
        yield f"Sessions without an entry in the log count as not done: {names}."


def _what_next(of: NextBlock) -> Iterator[str]:
    if of.outcome is None:
        yield f"No outcome ({of.no_outcome}): the emphasis follows the tests in the file."
        return
    says, before = of.outcome.rule.next_block[of.outcome.row], of.before
    parts = []
    if before.lifts != 1:
        parts.append(f"{100 * before.lifts:.0f} % of the lifts' sets")
    if before.jumps != 1:
        parts.append(f"{100 * before.jumps:.0f} % of sprints and harder jumps")
    if not before.rotate:
        parts.append("accessory movements stay")
    done = f"; here: {listed(parts)}" if parts else "; the emphasis follows the new tests"
    yield f"What next: {says}{done}."


def _load(of: NextBlock, athlete: Athlete) -> Iterator[str]:
    usual, filed = of.before.usual_week, athlete.recent_load
    said = (
        f"Recent load, a usual week of weeks {listed([str(week) for week in usual.weeks])}: "
        f"{usual.weekly_working_sets} working sets, {usual.weekly_contacts} contacts ({usual.weekly_high_contacts} of "
        f"them high), {usual.weekly_sprints} sprints; week 1 grows from there"
    )
    if filed is not None:
        high = "" if filed.weekly_high_contacts is None else f" ({filed.weekly_high_contacts})"
        contacts = f"{filed.weekly_contacts}{high}"
        said += f", not from the file's {filed.weekly_working_sets}, {contacts}, {filed.weekly_sprints}"
    yield f"{said}."


def _maxima(of: NextBlock, athlete: Athlete) -> Iterator[str]:
    if not of.before.maxima:
        return
    courses = {} if of.told is None else {one.movement: one for one in of.told.lifts}
    told = []
    for lift, share in of.before.maxima.items():
        course, more = courses.get(lift), f"{100 * (share - 1):+.1f} % against its test"
        now = None if course is None else f"{course.name} {words_of(athlete).load(course.now_kg, 0)}"
        told.append(f"{lift} {more}" if now is None else f"{now} ({more})")
    yield f"Maxima by the log, of lifts not tested since: {listed(told)}."


def _movements(of: NextBlock, new: Block) -> Iterator[str]:
    names = {item.movement: item.name for block in (of.block, new) for item in _items(block)}
    now = {item.movement: item.part for item in _items(new)}
    had = {one.movement: one for one in of.before.known}
    stay = [one for one in _of_the_end(of, MAIN) if one.movement in now]
    gone = [one for one in _of_the_end(of, MAIN) if one.movement not in now]
    kept = [f"{names.get(one.movement, one.movement)} ({counted(one.weeks, 'week')} done)" for one in stay]
    said = f"Main lifts that go on: {listed(kept) or 'none'}"
    said += f"; left: {listed([names.get(one.movement, one.movement) for one in gone])}" if gone else ""
    yield f"{said}."
    others = [movement for movement, part in now.items() if part not in (MAIN, "test")]
    fresh = [names[movement] for movement in others if movement not in had]
    again = len(others) - len(fresh)
    out = [one for one in of.before.known if one.to_the_end and one.part != MAIN and one.movement not in now]
    yield (
        f"Other movements: {again} go on, {len(out)} of its last phase are left, {len(fresh)} are new"
        f"{': ' + listed(fresh) if fresh else ''}."
    )


def _of_the_end(of: NextBlock, part: str) -> list[KnownMovement]:
    return [one for one in of.before.known if one.part == part and one.to_the_end]


def _items(block: Block) -> Iterator[Item]:
    return (item for session in block.sessions for item in session.items if item.sets)


def _ladders(of: NextBlock, words: Words) -> Iterator[str]:
    told = []
    for ladder, percent in of.longer.items():
        reached = of.before.ladder.get(ladder)
        contact = "contact not tested again" if percent is None else f"contact {percent:+.0f} %"
        if reached is not None:
            told.append(f"{ladder} go on from {rung_in_words(ladder, reached, words)} ({contact})")
        elif percent is not None and percent > 0:
            told.append(f"{ladder} begin anew ({contact})")
    if told:
        yield f"Jumps: {'; '.join(told)}."


def _pain(of: NextBlock) -> Iterator[str]:
    for state in of.before.pain:
        where = side_and_joint(state.side, state.joint)
        yield f"Pain by the end of the log: {where} {state.pain} of 10; its ceilings are lowered."
