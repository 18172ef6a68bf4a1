"""The tests of an athlete's file as the test sheet asks for them, and new results written below the old ones."""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, cast

from planner.domain.athlete import Preferences
from planner.domain.card_layout import CardLayout
from planner.domain.findings import Finding, UserError
from planner.domain.measure import Test
from planner.domain.movement_library import Library
from planner.domain.terms import Leg
from planner.files.add_test import AthleteFile
from planner.files.load import load_library
from planner.files.locate import locate_library
from planner.files.suggest import did_you_mean
from planner.files.typed_tests import LEGS_OF, entry_like, read_result
from planner.jobs.print_block import layout_near
from planner.prescription.battery import how_taken, results_of
from planner.units import Unreadable

RESULTS = ("load", "reps", "reps_in_reserve", "trials", "sets", "left", "right")


@dataclass(frozen=True)
class SheetPlace:
    """A test of the sheet, of one leg where legs are apart. ``last``: the latest test that it repeats."""

    number: int
    side: Leg | None
    name: str
    how: str
    last: Test
    result: str

    @property
    def word(self) -> str:
        """How it is named in ``--result`` and in a spreadsheet: ``6 left``."""
        return f"{self.number} {self.side}" if self.side else str(self.number)

    @property
    def key(self) -> tuple[int, Leg | None]:
        """Both legs of some kinds are one test."""
        return (self.number, None if self.last.kind in LEGS_OF else self.side)


@dataclass
class Battery:
    """The sheet's tests, and the results told so far, by place."""

    file: AthleteFile
    layout: CardLayout
    places: list[SheetPlace]
    library: Library | None = None
    entries: dict[tuple[datetime.date, int, Leg | None], dict[str, Any]] = field(default_factory=dict)
    body_mass: str | None = None

    def tell(self, place: SheetPlace, day: datetime.date, text: str) -> None:
        """Take a result in. Raises Unreadable for what it is not, UserError for what the file would not hold."""
        athlete = self.file.athlete
        units = (athlete.print_as.length, athlete.print_as.mass)
        fields = read_result(place.last, place.side, text, units)
        key = (day, *place.key)
        there = self.entries.get(key, {})
        self._refuse_again(place, day)
        entry = {**(there or entry_like(place.last, day, {})), **fields}
        self.file.with_tests([*(one for at, one in self.entries.items() if at != key), entry])
        self.entries[key] = entry

    def _refuse_again(self, place: SheetPlace, day: datetime.date) -> None:
        for test in self.file.athlete.tests:
            if (
                test.date == day
                and _what_is_tested(test) == _what_is_tested(place.last)
                and _side(test) in (None, place.side)
            ):
                message = f"{place.name}: a test of {day} is in the file already"
                hint = "change it there, or give the day of the new one"
                raise UserError([Finding(self.file.path, 0, 0, "same-day", message, hint)])

    def raw(self) -> bytes:
        """The file with the results as its last tests, by date and in the sheet's order, and the body mass if told."""
        order = sorted(self.entries, key=lambda at: (at[0], at[1], str(at[2])))
        return self.file.with_tests([self.entries[at] for at in order], self.body_mass)

    def place(self, word: str) -> SheetPlace:
        """By number (``6``, ``6 left``), kind or lift, as the file, the card or the trade calls it.

        UserError where no test or more than one has that name.
        """
        wanted = word.strip().casefold()
        called = self.library.called(wanted) if self.library else []
        found = [one for one in self.places if wanted in _names(one)]
        found = found or [one for one in self.places if getattr(one.last, "movement", None) in called]
        if len(found) == 1:
            return found[0]
        if found:
            names = ", ".join(one.word for one in found)
            message, hint = f"'{word}' is more than one test", f"name one of {names}"
        else:
            known = [name for one in self.places for name in _names(one)]
            message, hint = f"the sheet has no test '{word}'", did_you_mean(wanted, known) or "jumpblock test --show"
            lifts = [one for one in called if self.library and self.library[one].kind == "lift"]
            if lifts:
                lift = " or ".join(lifts)
                line = f"- {{kind: lift, date: , movement: {lift}, load: , reps: , reps_in_reserve: }}"
                hint = f"a new test is written into the file by hand, below tests: {line}"
        raise UserError([Finding(self.file.path, 0, 0, "unknown-test", message, hint)])


def open_battery(path: str) -> Battery:
    """UserError where the athlete's file has findings."""
    file = AthleteFile(path)
    layout = layout_near(path)
    at = locate_library(near=Path(path))
    library, units = load_library(at.path, at.display).value, file.athlete.print_as
    library = library.read_by(units.length, units.mass) if library else None
    return Battery(file, layout, list(_places(file.athlete.tests, layout, file, library)), library)


def _places(
    tests: Sequence[Test], layout: CardLayout, file: AthleteFile, library: Library | None
) -> Iterator[SheetPlace]:
    """Lifts by the names that the printed sheet has."""
    number = 1  # body mass, on the sheet
    for kind, words in layout.tests.items():
        for last_by_side in _latest([test for test in tests if test.kind == kind], file.athlete.print_as):
            number += 1
            for side, (test, result) in last_by_side.items():
                lift = getattr(test, "movement", None)
                known = library.get(lift) if library and lift else None
                name = known.name if known else str(lift).replace("-", " ").capitalize() if lift else words.name
                how = " · ".join(how_taken(test, file.athlete.print_as))
                yield SheetPlace(number, side, name, how, test, f"{test.date}: {result}")


def _latest(tests: Sequence[Test], units: Preferences) -> list[dict[Leg | None, tuple[Test, str]]]:
    """Each test of one kind with its last result of each leg."""
    found: dict[object, dict[Leg | None, tuple[Test, str]]] = {}
    for test in sorted(tests, key=lambda one: one.date):
        for side, _, result in results_of(test, units):
            found.setdefault(_what_is_tested(test), {})[side] = (test, result)
    return list(found.values())


def _what_is_tested(test: Test) -> tuple[object, ...]:
    """What two takings of one test share; the words for method and protocol may differ."""
    names = ("kind", "movement", "take_off", "run_up", "form", "position", "jump", "arms", "drop", "distance")
    return tuple(getattr(test, name, None) for name in names)


def _side(test: Test) -> Leg | None:
    return cast("Leg | None", getattr(test, "side", None))


def _names(place: SheetPlace) -> tuple[str, ...]:
    own = getattr(place.last, "movement", None) or place.last.kind
    leg = f" {place.side}" if place.side else ""
    return tuple(f"{name}{leg}" for name in (place.number, own, own.replace("-", " "), place.name.casefold()))


def shown(battery: Battery) -> list[str]:
    """The sheet's tests with their numbers, how they were done and the last result."""
    lines, last = [], 0
    for place in battery.places:
        if place.number != last:
            lines.append(f"{place.number:>3}  {place.name}" + (f" · {place.how}" if place.how else ""))
        last = place.number
        leg = f"{place.side}, " if place.side else ""
        lines.append(f"       {leg}last {place.result}")
    return lines


def written(battery: Battery) -> list[str]:
    """What was told, a line a test."""
    names = {place.key: place.name for place in battery.places}
    lines = []
    for (day, number, side), entry in battery.entries.items():
        said = "; ".join(f"{name.replace('_', ' ')} {_as_typed(entry[name])}" for name in RESULTS if name in entry)
        lines.append(f"{day}  {number}  {names[number, side]}{f', {side}' if side else ''}: {said}")
        if entry["kind"] == "lift" and "reps_in_reserve" not in entry:
            again = f"{entry['load']} x {entry['reps']}; 2 left"
            lines.append("  reps left were not told, so the set is read as taken to failure")
            lines.append(f"  where some were left, tell them behind the reps, such as {again}")
    return lines


def _as_typed(value: Any) -> str:
    if isinstance(value, list):
        return ", ".join(_as_typed(one) for one in value)
    if isinstance(value, Mapping):
        return " ".join(f"{name.replace('_', ' ')} {_as_typed(inner)}" for name, inner in value.items())
    return str(value)


def results_from(path: str, battery: Battery, day: datetime.date | None) -> None:
    """Take in a spreadsheet of results, one row a trial or a test. UserError with every finding, on its cell.

    ``day``: of rows without a date.
    """
    from planner.files.tests_sheet import read_tests
    from planner.jobs.follow_up_near import follow_up_near, shipped_follow_up

    headings = follow_up_near(battery.file.path).sheet
    known = {heading.means for heading in headings}
    headings = (*headings, *(one for one in shipped_follow_up().sheet if one.means not in known))
    found: list[Finding] = []
    for row in read_tests(Path(path), path, headings, day):
        try:
            battery.tell(battery.place(row.test), row.day, row.text)
        except Unreadable as error:
            found.append(row.cell.finding("not-a-result", error.message, error.hint))
        except UserError as error:
            found += [row.cell.finding(one.code, one.message, one.hint) for one in error.findings]
    if found:
        raise UserError(found)
