"""Jumps get harder by phase: higher boxes, fuller efforts; and hops wait for the calf."""

from __future__ import annotations

from collections.abc import Iterator

from planner.domain.block import Week
from planner.domain.movement import Movement
from planner.domain.terms import LEVELS
from tests.coach.block_read import Line, Read
from tests.coach.checking import Break, at, check

SAME_BOX_m = 0.01
QUICK_s = 0.25  # a drop jump with a longer contact was not held: its box stays
EARLY_WEEKS = 2  # no one-leg forward hops in these
SORE = 3  # of 10, from here no drop jumps (common practice, no source)
CALF_SHORT = 0.15  # nor with a calf short by more
LADDERS = ("drop jumps", "bounds", "run-up jumps")
BAXTER = (
    "Baxter et al. 2021, for the load on the Achilles tendon: from memory; the figures are common practice, no source"
)


def _ladder(movement: Movement) -> tuple[str, float] | None:
    """Which ladder a jump is on, and how high: a box in cm, or an effort in per cent."""
    jump = movement.jump
    if jump is None:
        return None
    if jump.rebound and jump.drop is not None:
        return ("drop jumps", 100 * jump.drop) if movement.legs == "both" else None
    if jump.direction == "horizontal" and movement.legs == "alternate" and jump.approach == "rebound":
        return ("bounds", jump.effort_percent) if movement.part == "jump" else None  # a skip is no bound
    return ("run-up jumps", jump.effort_percent) if movement.part == "approach-jump" else None


def _is_sore(read: Read) -> bool:
    return bool(read.pain("achilles-ankle", "patellar-knee"))


def _open(read: Read, movement: Movement) -> bool:
    """Whether level, gym, runway, landing and strength leave the movement to this athlete."""
    jump = movement.jump
    level = "novice" if read.planned_as_novice else read.athlete.level
    fits = LEVELS.index(movement.level) <= LEVELS.index(level) and read.can_use(movement)
    fits = fits and movement.runway <= read.runway_m and movement.take_off in (None, _legs(read))
    if jump is None or not fits or jump.tier != "high":
        return fits
    return not read.is_novice and not read.is_young and read.athlete.landing == "holds" and _is_strong(read)


def _legs(read: Read) -> str:
    return "two-leg" if read.athlete.take_off == "two-leg" else "one-leg"


def _is_strong(read: Read) -> bool:
    squat_kg = read.one_rm_kg("back-squat") or 0.0
    return squat_kg >= read.template.gates.high_tier_squat_body_mass * read.athlete.body_mass


def _top(read: Read, phase: list[Week], ladder: str) -> Line | None:
    """The highest rung of a ladder in a phase."""
    rungs = [line for week in phase for line in read.of(week) if (_ladder(line.movement) or ("",))[0] == ladder]
    return max(rungs, key=_height, default=None)


def _height(line: Line) -> float:
    found = _ladder(line.movement)
    return found[1] if found else 0.0


def _has_ladders(read: Read) -> bool:
    return len(read.load_phases) > 1 and not _is_sore(read)


@check("7", "the same box, or the same effort, in the last load phase as in the first", to=_has_ladders)
def jumps_get_harder(read: Read) -> Iterator[Break]:
    for ladder in LADDERS:
        first, last = (_top(read, phase, ladder) for phase in (read.load_phases[0], read.load_phases[-1]))
        if first is None or last is None or _height(last) > _height(first):
            continue
        rungs = [
            found[1] for one in read.library if (found := _ladder(one)) and found[0] == ladder and _open(read, one)
        ]
        if max(rungs, default=0) > _height(last):
            unit = "cm" if ladder == "drop jumps" else "%"
            was = f"{_height(first):.0f} {unit} in week {first.week.number}"
            yield at(last, f"{ladder}: {was}, {_height(last):.0f} {unit} now; {max(rungs):.0f} {unit} is open")


def _tested_box_cm(read: Read) -> float | None:
    """The box of a drop jump test whose middle contact was quick."""
    quick = [
        100 * test.drop
        for test in read.athlete.tests
        if test.kind == "drop-jump" and sorted(t.contact for t in test.trials)[len(test.trials) // 2] <= QUICK_s
    ]
    return max(quick, default=None)


def _drops(read: Read) -> Iterator[Line]:
    return read.where(lambda line: (_ladder(line.movement) or ("",))[0] == "drop jumps", read.load_weeks)


def _drops_as_tested(read: Read) -> bool:
    return _tested_box_cm(read) is not None and any(_drops(read)) and not _is_sore(read)


@check("7", "drop jumps from a lower box than the one tested", to=_drops_as_tested)
def tested_box_first(read: Read) -> Iterator[Break]:
    tested_cm = _tested_box_cm(read) or 0.0
    for line in _drops(read):
        if _height(line) < tested_cm - 100 * SAME_BOX_m:
            yield at(line, f"off {_height(line):.0f} cm, and the test was off {tested_cm:.0f} cm")


def _tendon_hurts(read: Read) -> bool:
    return read.pain("achilles-ankle", "patellar-knee") >= SORE


@check("11", "a drop jump on a tendon that hurts more than slightly", to=_tendon_hurts)
def sore_tendon_does_no_drops(read: Read) -> Iterator[Break]:
    for line in read.where(lambda line: (_ladder(line.movement) or ("",))[0] == "drop jumps"):
        yield at(line, f"off {_height(line):.0f} cm with a sore tendon")


def _is_forward_hop(line: Line) -> bool:
    jump = line.movement.jump
    return (
        jump is not None and jump.direction == "horizontal" and line.movement.legs == "one" and line.item.part == "jump"
    )


def _hops(read: Read) -> bool:
    return any(read.where(_is_forward_hop))


@check("7", "one-leg forward hops counted as less than high", to=_hops, source=BAXTER)
def forward_hops_are_high(read: Read) -> Iterator[Break]:
    for line in read.where(lambda line: _is_forward_hop(line) and line.item.tier != "high"):
        yield at(line, f"{line.item.contacts} one-leg forward hops counted as {line.item.tier}")


@check("7", "one-leg forward hops in weeks 1-2, or with a calf more than 15 % short", to=_hops, source=BAXTER)
def forward_hops_wait(read: Read) -> Iterator[Break]:
    calf = read.deficit("calf-ankle")
    for line in read.where(_is_forward_hop):
        if line.week.number <= EARLY_WEEKS:
            yield at(line, f"one-leg forward hops in week {line.week.number}")
        elif calf is not None and calf.deficit > CALF_SHORT:
            yield at(line, f"one-leg forward hops with a calf {calf.deficit:.0%} short")
