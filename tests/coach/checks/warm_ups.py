"""Warm-ups: long enough before maximal run-up jumps, with jumps that build up, on the floor that is there."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import takewhile

from planner.domain.block import Session
from tests.coach.block_read import Line, Read
from tests.coach.checking import Break, check
from tests.coach.printed import session_words, warm_up_words

BEFORE_MAXIMAL_minutes = 15
GRADED = re.compile(r"60\b.*75\b.*90\b")
METRES = re.compile(r"(\d+) m\b")


def _is_maximal(line: Line) -> bool:
    jump = line.movement.jump
    return line.item.part == "approach-jump" and jump is not None and jump.effort_percent >= 100


def _builds_up(line: Line) -> bool:
    """Easier jumps off the run-up, which warm up to the maximal ones after them."""
    return line.item.part == "approach-jump"


def _jumps_maximally(read: Read) -> bool:
    return any(read.where(_is_maximal))


def _maximal_days(read: Read) -> Iterator[tuple[int, Session, list[Line]]]:
    for week, session in read.dated.values():
        lines = read.of(week, session)
        if any(map(_is_maximal, lines)):
            yield week.number, session, lines


@check("should", "less than 15 minutes of warm-up before maximal run-up jumps", to=_jumps_maximally)
def warm_up_is_long_enough(read: Read) -> Iterator[Break]:
    for week, session, lines in _maximal_days(read):
        easier = [line for line in takewhile(lambda line: not _is_maximal(line), lines) if _builds_up(line)]
        minutes = session.warm_up_minutes + sum(line.minutes for line in easier)
        if minutes < BEFORE_MAXIMAL_minutes:
            yield Break(f"{minutes:g} minutes of warm-up before maximal run-up jumps", week, session.date)


@check("should", "maximal run-up jumps without graded ones before them (60/75/90 %)", to=_jumps_maximally)
def maximal_jumps_are_built_up_to(read: Read) -> Iterator[Break]:
    for number, session, lines in _maximal_days(read):
        first = next(line for line in lines if line.item.part == "approach-jump")
        week = read.dated[session.date][0]
        if _is_maximal(first) and not GRADED.search(session_words(read, week, session)):
            yield Break("straight to full run-up jumps: none at 60, 75 and 90 % is on the card", number, session.date)
            return


@check("should", "a warm-up run longer than the runway", to=lambda read: read.athlete.equipment.runway is not None)
def warm_up_fits_the_runway(read: Read) -> Iterator[Break]:
    for week, session in read.dated.values():
        longest = max((int(m) for m in METRES.findall(warm_up_words(read, session))), default=0)
        if longest > read.runway_m:
            yield Break(f"runs of {longest} m on a runway of {read.runway_m:g} m", week.number, session.date)
            return
