"""Words of one file that another defines: movements, equipment, schemes. Unknown ones are findings on their line."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from typing import Any

from planner.domain.athlete import Athlete
from planner.domain.findings import Finding
from planner.domain.measure import LiftTest
from planner.domain.movement import Movement
from planner.domain.movement_library import Library
from planner.domain.prerequisite import RequirementError, parse_requirement
from planner.domain.training_squad import Squad
from planner.domain.usual_gyms import UsualGyms
from planner.files.document import Loaded
from planner.files.gather import REVIEW
from planner.files.suggest import did_you_mean, movement_hint
from planner.files.tree import Path


def athlete_references(
    loaded: Loaded[Athlete],
    library: Library,
    *,
    template_names: Iterable[str] | None = None,
    rule_ids: Iterable[str] | None = None,
) -> list[Finding]:
    """Movements, equipment, and (where the known names are given) template and rules named in an athlete's file."""
    athlete = loaded.require()
    found = list(_movements(athlete, loaded, library))
    items: list[tuple[Path, str]] = [(("equipment", "items", n), one) for n, one in enumerate(athlete.equipment.items)]
    found += _unknown_equipment(loaded, items, library)
    if template_names is not None and athlete.template is not None and not athlete.template.endswith((".yaml", ".yml")):
        names = sorted(template_names)
        if athlete.template not in names:
            found.append(_unknown(loaded, ("template",), "template", athlete.template, names))
    if rule_ids is not None:
        ids = sorted(rule_ids)
        for index, allowance in enumerate(athlete.allow):
            if allowance.rule is not None and allowance.rule not in ids:
                found.append(_unknown(loaded, ("allow", index, "rule"), "rule", allowance.rule, ids))
    return found


def library_references(loaded: Loaded[Library], also: Collection[str] = ()) -> list[Finding]:
    """Neighbours, reference lifts, required lifts and equipment named by movements.

    ``also``: ids written in files with findings of their own, whose entries could not be read.
    """
    library = loaded.require()
    found = [finding for movement in library for finding in _movement_references(movement, loaded, library, also)]
    return [*found, *_review_references(loaded, library, also)]


def benchmark_references(loaded: Loaded[Any], library: Library) -> list[Finding]:
    """Movements that a benchmarks file reads as tests of strength."""
    found = []
    for quality, benchmark in loaded.require().qualities.items():
        for index, test in enumerate(benchmark.tests):
            for at, name in enumerate(test.lift.movements if test.lift is not None else ()):
                if name not in library:
                    path = ("qualities", quality, "tests", index, "lift", "movements", at)
                    found.append(_unknown(loaded, path, "movement", name, library.movements))
    return found


def squad_references(loaded: Loaded[Squad], library: Library) -> list[Finding]:
    """Equipment that a squad's file names: for new athletes, and what its stations take."""
    squad = loaded.require()
    items = squad.equipment.items if squad.equipment else ()
    named: list[tuple[Path, str]] = [(("equipment", "items", n), one) for n, one in enumerate(items)]
    for hall_at, hall in enumerate(squad.halls):
        for at, station in enumerate(hall.stations):
            path: Path = ("halls", hall_at, "stations", at, "equipment")
            named += [((*path, n), one) for n, one in enumerate(station.equipment)]
    return _unknown_equipment(loaded, named, library)


def gym_references(loaded: Loaded[UsualGyms], library: Library) -> list[Finding]:
    """Equipment that usual gyms have."""
    gyms = enumerate(loaded.require().gyms)
    named: list[tuple[Path, str]] = [
        (("gyms", at, "equipment", "items", n), one) for at, gym in gyms for n, one in enumerate(gym.equipment.items)
    ]
    return _unknown_equipment(loaded, named, library)


def _unknown_equipment(loaded: Loaded[Any], named: Iterable[tuple[Path, str]], library: Library) -> list[Finding]:
    return [
        _unknown(loaded, path, "equipment", one, library.equipment)
        for path, one in named
        if one not in library.equipment
    ]


def _movements(athlete: Athlete, loaded: Loaded[Athlete], library: Library) -> Iterator[Finding]:
    named: list[tuple[Path, str | None]] = [(("bans", i), name) for i, name in enumerate(athlete.bans)]
    named += [(("pins", i, "movement"), pin.movement) for i, pin in enumerate(athlete.pins)]
    named += [(("allow", i, "movement"), allowance.movement) for i, allowance in enumerate(athlete.allow)]
    named += [(("tests", i, "movement"), t.movement) for i, t in enumerate(athlete.tests) if isinstance(t, LiftTest)]
    for path, name in named:
        if name is not None and name not in library:
            hint = movement_hint(name, library) or "add it to the library"
            yield loaded.finding(path, "unknown-movement", f"'{name}' is not a known movement", hint)
    for index, test in enumerate(athlete.tests):
        if isinstance(test, LiftTest) and test.movement in library:
            yield from _side(test, library[test.movement], ("tests", index), loaded)


def _side(test: LiftTest, movement: Movement, path: Path, loaded: Loaded[Athlete]) -> Iterator[Finding]:
    if movement.legs == "one" and test.side is None:
        message = f"'{movement.id}' is done on one leg, but the test does not say which"
        yield loaded.finding((*path, "movement"), "side-missing", message, "add side: left or side: right")
    if movement.legs == "both" and test.side is not None:
        message = f"'{movement.id}' is done on both legs, but the test names a side"
        yield loaded.finding((*path, "side"), "side-not-wanted", message, "delete side")


def _review_references(loaded: Loaded[Library], library: Library, also: Collection[str]) -> Iterator[Finding]:
    if library.review is None:
        return  # the shipped review counts, which names the shipped equipment
    for index, gym in enumerate(library.review.gyms):
        for at, thing in enumerate(gym.has or ()):
            if thing not in library.equipment and thing not in also:
                yield _unknown(loaded, (REVIEW, "gyms", index, "has", at), "equipment", thing, library.equipment)


def _movement_references(
    movement: Movement, loaded: Loaded[Library], library: Library, also: Collection[str]
) -> Iterator[Finding]:
    named: list[tuple[Path, str | None]] = [
        ((movement.id, "easier"), movement.easier),
        ((movement.id, "harder"), movement.harder),
        ((movement.id, "dose", "of"), movement.dose.of),
    ]
    for index, text in enumerate(movement.requires):
        path: Path = (movement.id, "requires", index)
        try:
            named.append((path, parse_requirement(text).lift))
        except RequirementError as error:
            yield loaded.finding(path, "requirement", error.message, error.hint)
    for path, name in named:
        if name is not None and name not in library and name not in also:
            yield _unknown(loaded, path, "movement", name, [*library.movements, *also])
    for index, thing in enumerate(movement.equipment):
        if thing not in library.equipment and thing not in also:
            path = (movement.id, "equipment", index)
            yield _unknown(loaded, path, "equipment", thing, [*library.equipment, *also])


def _unknown(loaded: Loaded[Any], path: Path, what: str, name: str, known: Iterable[str]) -> Finding:
    hint = did_you_mean(name, known) or ("add it to the library" if what in ("movement", "equipment") else "")
    return loaded.finding(path, f"unknown-{what}", f"'{name}' is not a known {what}", hint)
