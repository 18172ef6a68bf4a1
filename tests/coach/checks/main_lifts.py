"""Squat and hinge: heavy enough for who does them, and of what the gym has."""

from __future__ import annotations

from collections.abc import Iterator

from planner.domain.terms import Pattern
from tests.coach.block_read import Line, Read
from tests.coach.checking import Break, at, check, in_week
from tests.coach.printed import item_words

LEAST_SHARE_OF_TESTED = 0.5  # of the tested maximum of the same pattern: less is a warm-up set
HARD_PAIN = 3  # closes the most stressful work of a joint
SURELY_STRONGER = -0.08  # deficit x confidence: then strength is only kept (the project's own figure)
MAINTAINED_FROM_percent, MAINTAINED_REPS, MAINTAINED_SETS = 84, 4, 2  # 2 x 2-4 at 85-90 %, plates rounded
MAIN_PATTERNS: tuple[Pattern, ...] = ("squat", "hinge")


def _tested_kg(read: Read, pattern: Pattern) -> float | None:
    """The largest tested maximum of a main lift of this pattern that the gym still has; None where there is none."""
    maxima = [
        read.one_rm_kg(name) or 0.0
        for name in read.lifts
        if (known := read.library.get(name)) and known.part == "main-lift" and pattern in known.patterns
        if read.can_use(known) and read.lifts[name].load > 0
    ]
    return max(maxima, default=None)


def _heaviest(lines: list[Line], pattern: Pattern) -> Line | None:
    """The main lift of a pattern with the most load."""
    main = [line for line in lines if line.item.part == "main-lift" and pattern in line.movement.patterns]
    return max(main, key=lambda line: line.item.load_kg or 0.0, default=None)


def _tested_above_novice(read: Read) -> bool:
    light = read.pain("patellar-knee") >= HARD_PAIN  # a light squat is then the right one
    return not read.is_novice and not light and any(_tested_kg(read, pattern) for pattern in MAIN_PATTERNS)


@check("1", "a body-weight or feather-light main lift for somebody who tested the loaded one", to=_tested_above_novice)
def main_lift_is_loaded(read: Read) -> Iterator[Break]:
    for week in read.block.weeks:
        for pattern in MAIN_PATTERNS:
            tested_kg, heaviest = _tested_kg(read, pattern), _heaviest(read.of(week), pattern)
            if tested_kg is None or heaviest is None:
                continue
            load_kg = heaviest.item.load_kg or 0.0
            if load_kg < LEAST_SHARE_OF_TESTED * tested_kg:
                load = f"{load_kg:g} kg" if load_kg else "no load printed"
                yield at(heaviest, f"{load} in the week's heaviest {pattern}; the maximum is {tested_kg:.0f} kg")


def _keeps_strength(read: Read) -> bool:
    line = read.deficit("maximal-strength")
    sure = line is not None and line.deficit * line.confidence < SURELY_STRONGER
    return sure and not read.planned_as_novice and _tested_kg(read, "squat") is not None and bool(read.later_weeks)


@check("1", "maintenance of a strong athlete that is not heavy (2 x 2-4 at 85-90 %)", to=_keeps_strength)
def maintenance_is_heavy(read: Read) -> Iterator[Break]:
    for week in read.later_weeks:
        heavy = [
            line
            for line in read.of(week)
            if line.item.part == "main-lift" and (line.item.percent or 0) >= MAINTAINED_FROM_percent
            if (line.item.reps or 99) <= MAINTAINED_REPS and line.item.sets >= MAINTAINED_SETS
        ]
        if not heavy:
            yield in_week(week, "strength is only kept, and no main lift is heavy: 2 x 2-4 at 85-90 %")


@check("should", "a tested lift printed as find the load", to=lambda read: bool(read.lifts))
def tested_lift_has_its_load(read: Read) -> Iterator[Break]:
    for line in read.where(lambda line: line.item.movement in read.lifts and line.loaded):
        tested = read.lifts[line.item.movement]
        if not line.item.load_kg and tested.load > 0:
            yield at(line, f"tested at {tested.load:g} kg x {tested.reps}: '{item_words(read, line.item)}'")


def _is_banded(line: Line) -> bool:
    by_band = "bands" in line.movement.equipment and line.item.implement == "free" and not line.item.load_kg
    return line.is_lift and line.item.part in ("main-lift", "one-leg") and by_band


@check("should", "bands as the load where dumbbells or a bar are there", to=lambda read: read.has_loads)
def no_bands_where_iron_is(read: Read) -> Iterator[Break]:
    for line in read.where(_is_banded):
        yield at(line, "a band is the load, and the gym has iron")
