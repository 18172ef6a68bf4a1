"""The sheet for the test day: the target jump first, loaded jumps and strength last; and the primer before it."""

from __future__ import annotations

from collections.abc import Iterator

from planner.domain.block import TestLine
from tests.coach.block_read import Line, Read
from tests.coach.checking import Break, check
from tests.coach.printed import retest_sheet

KINDS = {
    "touch": ("touch",),
    "given": ("given-rise",),
    "flight-time": ("flight-time", "contact-mat", "countermovement-jump"),
}
LAST = ("loaded-jump", "lift", "isometric-force", "isometric-calf", "heel-raise")  # what tires, or is strength
BOUNCES = ("pogos", "one-leg-pogos")
PRIMER_DAYS = 2  # the last session is a primer if so close to the test
SHORT_SPRINT_m, SPRINTS, RUN_UPS, POGOS = 20, 2, 3, 20  # 2 x 15 m, three run-ups at 80-90 %, pogos 2 x 10
POGOS_IN_SEASON = 16  # 2 x 8, where a week has few contacts: own


def _names(read: Read) -> list[tuple[str, str]]:
    """Each asked test after body mass: its kind, and what it is called on the sheet with how it is done."""
    found = []
    for asked in retest_sheet(read):
        lines = [line for line in read.block.for_athlete.tests if _is_asked(read, line, asked.name, asked.how)]
        if lines:
            found.append((lines[0].kind, f"{asked.name} · {asked.how}" if asked.how else asked.name))
        elif asked.name not in (read.layout.sheets.body_mass, read.layout.sheets.new_test):
            found.append(("", asked.name))
    return found


def _is_asked(read: Read, line: TestLine, name: str, how: str) -> bool:
    words = read.layout.tests.get(line.kind)
    return how == " · ".join(line.how) and name in (line.movement, words.name if words else None)


def _target(read: Read) -> tuple[tuple[str, ...], str]:
    """The kinds of test that take the target's height, and how the jump is done."""
    run_up = "off a run-up" if read.athlete.approach.steps else "from a stand"
    return KINDS.get(read.athlete.target.method, ()), f"{read.athlete.take_off}, {run_up}"


def _asks_target(read: Read) -> bool:
    kinds, how = _target(read)
    return any(kind in kinds and how in name for kind, name in _names(read))


@check("12", "the retest sheet asks for something else before the target jump", to=_asks_target)
def target_jump_is_tested_first(read: Read) -> Iterator[Break]:
    kinds, how = _target(read)
    names = _names(read)
    place = next(at for at, (kind, name) in enumerate(names) if kind in kinds and how in name)
    if place:
        yield Break(f"the target jump comes after {place} other tests, the first '{names[0][1]}'")


def _has_strength_and_speed(read: Read) -> bool:
    kinds = [kind for kind, _ in _names(read)]
    return any(kind in LAST for kind in kinds) and any(kind not in LAST for kind in kinds)


@check("12", "loaded jumps or strength tested before free jumps and sprints", to=_has_strength_and_speed)
def strength_is_tested_last(read: Read) -> Iterator[Break]:
    names = _names(read)
    first = next(at for at, (kind, _) in enumerate(names) if kind in LAST)
    late = [name for kind, name in names[first:] if kind not in LAST]
    if late:
        yield Break(f"'{late[0]}' comes after '{names[first][1]}'")


def _primer(read: Read) -> list[Line] | None:
    """The items of the session just before the test; None where none is so close, or it is a day of strength."""
    days = list(read.dated.values())
    if len(days) < 2 or (days[-1][1].date - days[-2][1].date).days > PRIMER_DAYS:
        return None
    lines = read.of(*days[-2])
    return None if any(line.is_lift for line in lines) else lines


@check("should", "a primer without pogos, short sprints and run-ups", to=lambda read: _primer(read) is not None)
def primer_wakes_the_jump(read: Read) -> Iterator[Break]:
    lines = _primer(read) or []
    week, session = list(read.dated.values())[-2]
    pogos = sum(line.item.contacts for line in lines if read.library.families[line.movement.id] in BOUNCES)
    short = [
        line for line in lines if line.movement.sprint is not None and (line.item.distance_m or 0) <= SHORT_SPRINT_m
    ]
    run_ups = sum(line.item.contacts for line in lines if line.item.part == "approach-jump")
    missing = [
        what
        for what, is_missing in (
            ("pogos 2 x 10", pogos < (POGOS_IN_SEASON if len(read.load_phases) == 1 else POGOS)),
            ("2 x 15 m", sum(line.item.sets for line in short) < SPRINTS),
            ("three run-ups at 80-90 %", read.athlete.approach.steps > 0 and run_ups < RUN_UPS),
        )
        if is_missing
    ]
    if missing:
        yield Break(f"without {', '.join(missing)}", week.number, session.date)
