"""Novices progress: reps up with the reserve kept, then the next load that the gym has."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import pairwise

from tests.coach.block_read import EPLEY_REPS, Line, Read
from tests.coach.checking import Break, at, check, in_week
from tests.coach.printed import session_words

LEAST_RISE = 0.02  # of what the test showed, on all that is lifted; one repetition more is 3 %
NEXT_LOAD = re.compile(r"next load|load up|more load|go up|add (a |the )?(load|kg|weight)", re.I)
SORE = 3  # pain of 10, from which a lift on that joint may go without its load: common practice, no source
STRENGTH_PARTS = ("main-lift", "one-leg", "calf")


def _shown_kg(read: Read, line_kg: float, reps: int, line: Line) -> float:
    """The maximum that a set shows, of the body lifted and the load together."""
    body_kg = line.movement.dose.body_mass_share * read.athlete.body_mass
    return (line_kg + body_kg) * (1 + reps / EPLEY_REPS)


def _novice_with_main_test(read: Read) -> bool:
    return read.is_novice and any(
        (known := read.library.get(name)) is not None and known.part == "main-lift" and read.can_use(known)
        for name in read.lifts
    )


@check("2", "a novice's last load week asks no more than the test on day 0 showed", to=_novice_with_main_test)
def novice_ends_above_the_test(read: Read) -> Iterator[Break]:
    last = read.load_weeks[-1]
    for name, test in read.lifts.items():
        done = [line for line in read.of(last) if line.item.movement == name and line.item.load_kg]
        known = read.library.get(name)
        if known is None or known.part != "main-lift" or not read.can_use(known):
            continue
        if not done:
            if read.pain(*(joint for joint, tag in known.stress.items() if tag)) >= SORE:
                continue
            yield in_week(last, f"the tested {name} is not trained with a load in the last load week")
            continue
        best = max(done, key=lambda line: _reached_kg(read, line))
        was = _shown_kg(read, test.load, test.reps + test.reps_in_reserve, best)
        if _reached_kg(read, best) < was * (1 + LEAST_RISE):
            now = f"{best.item.load_kg:g} kg x {best.item.reps}, {best.item.reps_in_reserve} left"
            tested = f"{test.load:g} kg x {test.reps}, {test.reps_in_reserve} left"
            yield at(best, f"the test was {tested}; the last load week asks {now}")


def _reached_kg(read: Read, line: Line) -> float:
    reps = (line.item.reps or 0) + (line.item.reps_in_reserve or 0)
    return _shown_kg(read, line.item.load_kg or 0.0, reps, line)


@check("2", "a novice's reps fall and no load rises for it", to=lambda read: read.is_novice)
def novice_reps_fall_only_for_load(read: Read) -> Iterator[Break]:
    for phase in read.load_phases:
        for before, after in pairwise(phase):
            was = {line.item.movement: line for line in read.of(before)}
            for line in read.of(after):
                old = was.get(line.item.movement)
                if old is None or not line.is_lift or line.item.part not in STRENGTH_PARTS:
                    continue
                fewer = (line.item.reps or 0) < (old.item.reps or 0)
                if fewer and (line.item.load_kg or 0) <= (old.item.load_kg or 0):
                    yield at(line, f"{old.item.reps} reps become {line.item.reps}, and the load stays")


def _novice_with_loads(read: Read) -> bool:
    return read.is_novice and any(line.is_lift and line.loaded for line in read.lines)


@check("2", "a novice's card does not say when to take the next load", to=_novice_with_loads)
def novice_card_says_when_to_load(read: Read) -> Iterator[Break]:
    for week in read.load_weeks:
        for session in week.sessions:
            loaded = [line for line in read.of(week, session) if line.is_lift and line.loaded]
            if loaded and not NEXT_LOAD.search(session_words(read, week, session)):
                yield at(loaded[0], "nothing on the card says: two more left than asked, next load up")
                return
