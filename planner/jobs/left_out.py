"""What a coach left out of an athlete's file and what is planned instead, each told once with the line to write."""

from __future__ import annotations

from planner.domain.athlete import Athlete
from planner.domain.benchmarks import Benchmarks
from planner.domain.findings import Finding
from planner.domain.measure import LiftTest
from planner.domain.movement_library import Library
from planner.files.document import Loaded
from planner.rules.figure_words import listed

_USUAL_WEEK = "recent_load: {weekly_contacts: 120, weekly_sprints: 10, weekly_working_sets: 40}"  # a form, no advice


def left_out_of_tests(loaded: Loaded[Athlete]) -> list[Finding]:
    """Lifts whose reserve nobody wrote: they are read as taken to failure."""
    lifts = [(at, test) for at, test in enumerate(loaded.require().tests) if isinstance(test, LiftTest)]
    silent = [(at, test.movement) for at, test in lifts if "reps_in_reserve" not in test.model_fields_set]
    if not silent:
        return []
    names = ", ".join(dict.fromkeys(name for _, name in silent))
    message = f"no reps_in_reserve, so the set counts as taken to failure ({names})"
    hint = "write reps_in_reserve: 2 if two reps were left, reps_in_reserve: 0 if none was"
    return [loaded.finding(("tests", silent[0][0]), "no-reserve", message, hint, level="note")]


def tells_no_quality(loaded: Loaded[Athlete], library: Library, benchmarks: Benchmarks) -> list[Finding]:
    """Tested lifts that no curve of the benchmarks reads: they give loads, and nothing to the gap."""
    curves = [test.lift for one in benchmarks.qualities.values() for test in one.tests if test.lift is not None]
    read = {lift for curve in curves for lift in curve.movements}
    lifts = [(at, test.movement) for at, test in enumerate(loaded.require().tests) if isinstance(test, LiftTest)]
    others = [(at, lift) for at, lift in lifts if lift not in read and lift in library]
    if not others:
        return []
    names = listed([library[lift].name_inside for lift in dict.fromkeys(lift for _, lift in others)])
    strength = next(
        (test.lift.movements[0] for test in benchmarks.qualities["maximal-strength"].tests if test.lift), ""
    )
    message = f"the test sets the load only, because the benchmarks have no curve for it: {names}"
    hint = f"maximal strength is read from the {library[strength].name_inside}" if strength in library else ""
    return [loaded.finding(("tests", others[0][0], "movement"), "tells-no-quality", message, hint, level="note")]


def left_out_of_plan(loaded: Loaded[Athlete], library: Library) -> list[Finding]:
    """Equipment that a tested lift needs, and the usual week."""
    found = tested_without_equipment(loaded, library)
    if loaded.require().recent_load is None:
        message = "no recent_load: week 1 starts from the template, whatever the athlete has done so far"
        hint = f"write a usual week of the last four, with the athlete's own figures: {_USUAL_WEEK}"
        found.append(loaded.finding((), "no-recent-load", message, hint, level="note"))
    return found


def tested_without_equipment(loaded: Loaded[Athlete], library: Library) -> list[Finding]:
    """Lifts that were tested although equipment lists nothing to do them with, as one finding."""
    athlete = loaded.require()
    kit = athlete.equipment.kit
    tested = [(at, library[test.movement]) for at, test in enumerate(athlete.tests) if isinstance(test, LiftTest)]
    closed = [(at, lift) for at, lift in tested if not set(lift.equipment) <= kit]
    if not closed:
        return []
    things = list(dict.fromkeys(thing for _, lift in closed for thing in lift.equipment if thing not in kit))
    names = ", ".join(dict.fromkeys(lift.name for _, lift in closed))
    message = f"equipment lists no {' and no '.join(things)}, so these tested lifts are not planned: {names}"
    hint = f"if the gym has it, write equipment: {{items: [{', '.join([*athlete.equipment.items, *things])}]}}"
    path = ("tests", closed[0][0], "movement")
    return [loaded.finding(path, "tested-without-equipment", message, hint, level="warning")]
