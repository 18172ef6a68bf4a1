"""The jump that the target is about: in every load week, and more of it later."""

from __future__ import annotations

from collections.abc import Iterator
from statistics import mean

from planner.domain.block import Week
from tests.coach.block_read import Read
from tests.coach.checking import Break, check, in_week

STANDING_A_WEEK, RUN_UP_A_WEEK = 10, 6  # the least of 10-15 maximal, and of 6-12 at 85-100 %
STANDING_percent, RUN_UP_percent = 100, 85
SORE_A_WEEK = 6  # with a sore tendon full jumps are capped at 8
MUCH_SPORT, WITH_MUCH_SPORT = 100, 4  # contacts a week of a sport that jumps by itself; then so few are enough (own)
SORE_WITH_MUCH_SPORT = 0  # then the sport's own jumps may be all that the tendon takes (own)
HARD_PAIN = 3  # closes the most stressful work of a joint


def _asked(read: Read) -> tuple[int, int]:
    """The least of a week, and the least effort that counts."""
    standing = not read.athlete.approach.steps
    count, percent = (STANDING_A_WEEK, STANDING_percent) if standing else (RUN_UP_A_WEEK, RUN_UP_percent)
    sore, much_sport = read.pain("achilles-ankle", "patellar-knee") > 0, read.sport_contacts_week >= MUCH_SPORT
    if sore and much_sport:
        return SORE_WITH_MUCH_SPORT, percent
    if sore:
        count = min(count, SORE_A_WEEK)
    return (min(count, WITH_MUCH_SPORT) if much_sport else count), percent


def _done(read: Read, week: Week) -> int:
    _, percent = _asked(read)
    return sum(line.item.contacts for line in read.of(week) if read.is_target_jump(line, percent))


def _may_jump(read: Read) -> bool:
    return read.pain("achilles-ankle", "patellar-knee") < HARD_PAIN


@check("5", "a load week without enough of the target jump (10-15 standing, 6-12 off the run-up)", to=_may_jump)
def target_jump_every_week(read: Read) -> Iterator[Break]:
    least, percent = _asked(read)
    what = f"{read.athlete.approach.steps}-step" if read.athlete.approach.steps else "standing"
    for week in read.load_weeks:
        done = _done(read, week)
        if done < least:
            yield in_week(
                week, f"{done} of the {what} target jump at {percent} % or more; at least {least} belong here"
            )


def _has_two_phases(read: Read) -> bool:
    return _may_jump(read) and len(read.load_phases) > 1 and not read.pain("achilles-ankle", "patellar-knee")


@check("5", "no more of the target jump in the last load phase than in the first", to=_has_two_phases)
def target_jump_grows(read: Read) -> Iterator[Break]:
    first, last = (mean(_done(read, week) for week in phase) for phase in (read.load_phases[0], read.load_phases[-1]))
    if last <= first:
        yield in_week(
            read.load_phases[-1][0], f"{first:.1f} target jumps a week in the first phase, {last:.1f} in the last"
        )
