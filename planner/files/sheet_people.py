"""The athletes of a sheet: which rows are of one athlete, and which figures are of one test day."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import NamedTuple

from planner.domain.findings import Finding
from planner.domain.terms import Leg
from planner.domain.test_sheet import SheetTest
from planner.files.cells import Cell
from planner.files.field_types import shape_of_test
from planner.files.sheet_headings import MOST_TRIALS, Meaning, folded
from planner.files.values import Data

_LATER_DAYS_MAY_DIFFER = ("date", "note")


class Read(NamedTuple):
    """A value with the cell that it was read from."""

    value: Data
    cell: Cell


@dataclass
class SheetTestDay:
    """One test of one athlete on one day. ``figures``: by trial (counted from 1) and the field that it becomes."""

    test: SheetTest
    side: Leg | None
    date: Read
    figures: dict[tuple[int, str, Leg | None], Read] = field(default_factory=dict)


@dataclass
class SheetPerson:
    """What a sheet says of one athlete. ``at``: the cell that names the athlete."""

    at: Cell
    id: str | None
    name: str | None
    fields: dict[str, Read] = field(default_factory=dict)
    tests: list[SheetTestDay] = field(default_factory=list)

    @property
    def called(self) -> str:
        return self.name or self.id or ""


def add_figure(person: SheetPerson, meaning: Meaning, date: Read, read: Read) -> Iterator[Finding]:
    test, figure = meaning.test, meaning.figure
    assert test is not None and figure is not None
    if test.sides and meaning.side is None:
        message, hint = f"'{test.heading}' is measured a leg at a time, and no side is named", "name left or right"
        yield read.cell.finding("side-missing", message, hint)
        return
    shape = shape_of_test(test.kind)
    own_side = meaning.side if shape not in ("legs", "leg-lists") else None
    same = (one for one in person.tests if (one.test.id, one.side, one.date.value) == (test.id, own_side, date.value))
    day = next(same, None)
    if day is None:
        day = SheetTestDay(test, own_side, date)
        person.tests.append(day)
    side = meaning.side if own_side is None else None
    taken = [trial for trial, name, leg in day.figures if (name, leg) == (figure.field, side)]
    trial = meaning.trial or max(taken, default=0) + 1
    if trial in taken or trial > MOST_TRIALS or (taken and shape in ("legs", "fields")):
        there = next(one.cell for (_, name, leg), one in day.figures.items() if (name, leg) == (figure.field, side))
        what = f"{person.called} has '{meaning.heading}' of {date.value} twice"
        if shape in ("legs", "fields") and trial not in taken:
            what = f"'{test.heading}' takes one figure a day"
        yield read.cell.finding("trial-twice", what, f"see {_short_place(there)}; keep one of them")
        return
    day.figures[(trial, figure.field, side)] = read


class People:
    """The athletes so far. ``one_row_each``: whether a name that comes again needs an id or a birth date.

    A name with another birth date is another athlete.
    """

    def __init__(self, one_row_each: bool) -> None:
        self.by_key: dict[str, SheetPerson] = {}
        self._one_row_each = one_row_each

    def problems(self, place: Cell, said: dict[str, Read]) -> Iterator[Finding]:
        """Why the row cannot be added: no name, a name of two athletes, or another fact of the same day."""
        if "id" not in said and "name" not in said:
            yield place.finding("no-name", "this row names no athlete", "fill the name, or delete the row")
            return
        earlier = self.by_key.get(_key(said))
        if earlier is None:
            return
        at = said["name"] if "name" in said else said["id"]
        other = _short_place(earlier.at)
        known = "id" in said or ("birth_date" in said and "birth_date" in earlier.fields)
        names = [name for name in ("birth_date", "name") if name in said and name in earlier.fields]
        differ = any(said[name].value != earlier.fields[name].value for name in names)
        if differ or (self._one_row_each and not known):
            what = "athletes are" if differ else "rows may be two athletes"
            message = f"two {what} called '{at.value}' (the other: {other})"
            yield at.cell.finding("name-twice", message, "add a column id that tells them apart")
            return
        days = [one["date"].value for one in (said, earlier.fields) if "date" in one]
        for name, read in said.items():
            there = earlier.fields.get(name)
            if (
                name not in _LATER_DAYS_MAY_DIFFER
                and there is not None
                and there.value != read.value
                and len(set(days)) < 2
            ):
                message = f"{read.value} here, and {there.value} in {_short_place(there.cell)}"
                yield read.cell.finding("said-twice", message, "keep one of them; an id tells two athletes apart")

    def person(self, place: Cell, said: dict[str, Read]) -> SheetPerson:
        """The athlete of this row; of two days the later one says body and target."""
        words = {name: str(said[name].value) for name in ("id", "name") if name in said}
        person = self.by_key.setdefault(_key(said), SheetPerson(place, words.get("id"), words.get("name")))
        person.name = person.name or words.get("name")
        days = [str(one["date"].value) for one in (said, person.fields) if "date" in one]
        later = len(days) < 2 or days[0] >= days[1]
        person.fields |= {name: read for name, read in said.items() if later or name not in person.fields}
        return person


def _key(said: dict[str, Read]) -> str:
    return f"id {said['id'].value}" if "id" in said else f"name {folded(str(said['name'].value))}"


def _short_place(cell: Cell) -> str:
    return f"line {cell.line}" if cell.line else cell.path.rpartition("!")[2]
