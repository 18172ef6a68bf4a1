"""Athletes' files made and brought up to date from a sheet. Comments and earlier tests stay."""

from __future__ import annotations

import datetime
import re
from dataclasses import dataclass, field, replace
from typing import Any, cast

from planner.domain.athlete import Athlete, RecentLoad
from planner.domain.findings import Finding
from planner.domain.movement_library import Library
from planner.files.cells import Cell
from planner.files.document import Loaded
from planner.files.dump import plain_to_yaml
from planner.files.edit import edited_bytes
from planner.files.edit_steps import CannotEdit, FileEdit, Insert, Put
from planner.files.field_types import field_type
from planner.files.load import load_athlete_bytes
from planner.files.sheet_entries import SheetEntry, as_model, results_of, same_test_and_day, sheet_entry
from planner.files.sheet_people import SheetPerson
from planner.files.tree import Path
from planner.files.values import Data
from planner.units import counted, parse_quantity

_BODY = ("body_mass", "stature", "standing_reach", "tip_toe_reach")
_NOT_IN_FILE = ("id", "date")
_LINE_OF_FILE = re.compile(r" \(line \d+\)")
_ORDER = tuple(Athlete.model_fields)


@dataclass
class AthleteChange:
    """What a sheet makes of one athlete's file. ``raw``: its new bytes; None where nothing changes."""

    raw: bytes | None
    told: list[str] = field(default_factory=list)
    findings: list[Finding] = field(default_factory=list)


def slug(name: str) -> str:
    """A file's name for a person: small letters and digits of any script, joined by hyphens; may be ""."""
    return "-".join(re.findall(r"[^\W_]+", name.casefold()))[:80]


def new_athlete(person: SheetPerson, begun: dict[str, Data], source: str, path: str, library: Library) -> AthleteChange:
    """``begun``: what the squad's file gives new athletes. ``source``: the sheet's name, for the first line."""
    data: dict[str, Data] = {"file": "athlete/1", **begun}
    cells: dict[Path, Cell] = {}
    for name, read in person.fields.items():
        if name not in _NOT_IN_FILE:
            _put(data, name, read.value)
            cells[tuple(name.split("."))] = read.cell
    entries = [sheet_entry(day, str(data.get("take_off", ""))) for day in person.tests]
    data["tests"] = [entry.data for entry in entries]
    findings = [finding for entry in entries for finding in entry.findings]
    lacking = [name for name in _lacking(data) if name != "tests"]
    if lacking or not entries:
        words = [name.replace("_", " ") for name in lacking] + ([] if entries else ["test"])
        message = f"{person.called} is new and has no {', '.join(words)}"
        hint = (
            "add it to the sheet" if set(lacking) - {"training", "target"} else "give it in the squad's file: --squad"
        )
        findings.append(person.at.finding("not-whole", message, hint))
    if findings:
        return AthleteChange(None, findings=findings)
    ordered = {name: data[name] for name in _ORDER if name in data}
    raw = f"# Made from {source}; every line may be changed.\n{plain_to_yaml(ordered)}".encode()
    for number, entry in enumerate(entries):
        cells |= {("tests", number, *inside): cell for inside, cell in entry.cells.items()}
    return AthleteChange(
        raw, [counted(len(entries), "test")], _at_cells(load_athlete_bytes(raw, path, library), cells, person.at)
    )


def _put(data: dict[str, Data], name: str, value: Data) -> None:
    section, _, inner = name.rpartition(".")
    if not section:
        data[name] = value
        return
    there = data.get(section)
    table = dict(there) if isinstance(there, dict) else {}
    data[section] = {**table, inner: value}


def _lacking(data: dict[str, Data]) -> list[str]:
    """Fields that an athlete's file cannot do without, also those of the sections it has."""
    found = [name for name, one in Athlete.model_fields.items() if one.is_required() and name not in data]
    recent = data.get("recent_load")
    if isinstance(recent, dict):
        found += [name for name, one in RecentLoad.model_fields.items() if one.is_required() and name not in recent]
    return found


def changed_athlete(person: SheetPerson, raw: bytes, path: str, library: Library) -> AthleteChange:
    """The file with what the sheet says anew. What the sheet does not say stays."""
    loaded = load_athlete_bytes(raw, path, library)
    if loaded.value is None:
        return AthleteChange(None, findings=list(loaded.findings))
    athlete = loaded.value
    latest = max(test.date for test in athlete.tests)
    said_on = cast("datetime.date", person.fields["date"].value) if "date" in person.fields else latest
    edits: list[tuple[FileEdit, Cell]] = []
    told: list[str] = []
    for name, read in person.fields.items():
        later = name not in _BODY or said_on >= latest
        if name in _NOT_IN_FILE or not later or _same(athlete, name, read.value):
            continue
        edits.append((_field_edit(athlete, name, read.value, person), read.cell))
        told.append(name.rpartition(".")[2].replace("_", " "))
    take_off = str(person.fields["take_off"].value) if "take_off" in person.fields else athlete.take_off
    entries = [sheet_entry(day, take_off) for day in person.tests]
    findings = [finding for entry in entries for finding in entry.findings]
    if findings:
        return AthleteChange(None, findings=findings)
    cells: dict[Path, Cell] = {tuple(name.split(".")): read.cell for name, read in person.fields.items()}
    more, test_cells = _test_edits(athlete, entries)
    edits += more
    told += [counted(len(more), "test")] if more else []
    if not edits:
        return AthleteChange(None)
    try:
        changed = edited_bytes(raw, [edit for edit, _ in edits])
    except CannotEdit as refusal:
        finding = person.at.finding("cannot-edit", f"{path} cannot be changed: {refusal.message}", refusal.hint)
        return AthleteChange(None, findings=[finding])
    return AthleteChange(
        changed, told, _at_cells(load_athlete_bytes(changed, path, library), cells | test_cells, person.at)
    )


def _test_edits(athlete: Athlete, entries: list[SheetEntry]) -> tuple[list[tuple[FileEdit, Cell]], dict[Path, Cell]]:
    """New tests at the end; a test of the same day that is there already gets the sheet's figures."""
    edits: list[tuple[FileEdit, Cell]] = []
    cells: dict[Path, Cell] = {}
    number = len(athlete.tests)
    for entry in entries:
        test = as_model(entry.data)
        alike = [n for n, one in enumerate(athlete.tests) if test is not None and same_test_and_day(one, test)]
        if test is not None and any(results_of(athlete.tests[n]) == results_of(test) for n in alike):
            continue
        at = alike[0] if alike else number
        cells |= {("tests", at, *inside): cell for inside, cell in entry.cells.items()}
        if not alike:
            edits.append((Insert(("tests",), number, entry.data), entry.cells[()]))
            number += 1
            continue
        assert test is not None
        before, after = results_of(athlete.tests[at]), results_of(test)
        for name in after:
            if name in entry.data and before[name] != after[name]:
                edits.append((Put(("tests", at, name), entry.data[name], tuple(entry.data)), entry.cells[()]))
    return edits, cells


def _field_edit(athlete: Athlete, name: str, value: Data, person: SheetPerson) -> FileEdit:
    """A section that is not there yet is written whole, each time the same."""
    section, _, inner = name.rpartition(".")
    if not section:
        return Put((name,), value, _ORDER)
    if getattr(athlete, section) is None:
        said = {
            one.rpartition(".")[2]: read.value for one, read in person.fields.items() if one.startswith(f"{section}.")
        }
        return Put((section,), said, _ORDER)
    return Put((section, inner), value, tuple(type(getattr(athlete, section)).model_fields))


def _same(athlete: Athlete, name: str, value: Data) -> bool:
    there: Any = athlete  # walked down
    for step in name.split("."):
        there = getattr(there, step, None)
    kind = field_type(Athlete, name)
    if kind.dimension is not None and there is not None:
        return bool(abs(parse_quantity(value, kind.dimension) - there) < 1e-9)
    return bool(there == value)


def _at_cells(loaded: Loaded[Athlete], cells: dict[Path, Cell], person: Cell) -> list[Finding]:
    """The findings of the file to be written, each at the cell that its place came from."""
    by_length = sorted(cells.items(), key=lambda one: len(one[0]))
    places = {(place.line, place.column): cell for path, cell in by_length if (place := loaded.place(path)).line}
    return [_at_cell(finding, places, person) for finding in loaded.findings]


def _at_cell(finding: Finding, places: dict[tuple[int, int], Cell], person: Cell) -> Finding:
    before = max((at for at in places if at <= (finding.line, finding.column)), default=None)
    cell = places[before] if before is not None else person
    message = _LINE_OF_FILE.sub("", finding.message)  # of a file that is not written yet
    return replace(cell.finding(finding.code, message, finding.hint), level=finding.level)
