"""A sheet of tests into athletes' files: all of them, or none where anything is wrong."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import cast

from planner.domain.athlete import Athlete
from planner.domain.findings import Finding, UserError, has_errors
from planner.domain.movement_library import Library
from planner.domain.training_squad import Squad, SquadTarget
from planner.estimate.trials import middle
from planner.files.atomic import write_atomically
from planner.files.document import Loaded
from planner.files.load import load_file, load_library, load_squad, load_test_sheet, read_bytes, then
from planner.files.locate import locate_library, locate_sheet
from planner.files.references import squad_references
from planner.files.sheet_people import SheetPerson
from planner.files.sheet_values import DateOrder
from planner.files.squad_athletes import AthleteChange, changed_athlete, new_athlete, slug
from planner.files.squad_tests_sheet import SheetRead, read_squad_tests
from planner.files.values import Data
from planner.jobs.safe_output import make_folder
from planner.jobs.squad_files import SQUAD_FILE, begins_with
from planner.report.terminal import first_of
from planner.units import INCH_m, is_imperial, parse_quantity


@dataclass
class SheetOutcome:
    """What was made of a sheet: names of files with what was written; ``findings``: what was left out, and warnings.

    ``squad``: the squad's file that was read, where it lists the folder of these files.
    """

    made: dict[str, list[str]] = field(default_factory=dict)
    changed: dict[str, list[str]] = field(default_factory=dict)
    same: list[str] = field(default_factory=list)
    findings: list[Finding] = field(default_factory=list)
    squad: str | None = None


def read_squad_sheet(
    sheet: str,
    folder: str,
    *,
    squad: str | None = None,
    battery: str | None = None,
    library: str | None = None,
    dates: DateOrder | None = None,
    skip_rows: bool = False,
) -> SheetOutcome:
    """Make or bring up to date the athletes' files of ``folder``. UserError with every finding, and nothing written.

    ``squad``: the file that gives new athletes their days, gym and target; else squad.yaml in the folder or above it.
    """
    at = locate_sheet(battery or "standard", sheet)
    read = read_squad_tests(
        Path(sheet), sheet, load_test_sheet(at.path, at.display).require(), dates=dates, skip_rows=skip_rows
    )
    library_at = locate_library(library, folder)
    known = load_library(library_at.path, library_at.display).require()
    loaded = _squad(squad, Path(folder), known)
    there = _Folder(Path(folder))
    outcome = SheetOutcome(findings=list(read.notes), squad=_listing(loaded, Path(folder)))
    writes: list[tuple[Path, bytes, str]] = []
    begun = begins_with(loaded) if loaded is not None else {}
    taken: dict[Path, SheetPerson] = {}
    for person in read.people:
        path, findings = there.path_of(person, taken)
        taken[path] = person
        before = there.raw(path)
        if findings:
            change = AthleteChange(None, findings=findings)
        elif before is None:
            own = {**begun, **_target(person, loaded.require() if loaded else None)}
            change = new_athlete(person, own, Path(sheet).name, path.as_posix(), known)
        else:
            change = changed_athlete(person, before[0], path.as_posix(), known)
        outcome.findings += change.findings
        if change.raw is None:
            outcome.same += [] if change.findings else [path.stem]
            continue
        (outcome.made if before is None else outcome.changed)[path.stem] = change.told
        writes.append((path, change.raw, before[1] if before else ""))
    if has_errors(outcome.findings):
        raise UserError(outcome.findings)
    outcome.findings += _without_load(read, there)
    make_folder(Path(folder))
    for path, raw, digest in writes:
        write_atomically(path, raw, digest)
    return outcome


def _squad(path: str | None, folder: Path, library: Library) -> Loaded[Squad] | None:
    if path is None:
        found = next(
            (one / SQUAD_FILE for one in (folder, folder.absolute().parent) if (one / SQUAD_FILE).is_file()), None
        )
        if found is None:
            return None
        path = found.as_posix()
    loaded = then(load_squad(path), lambda one: squad_references(one, library))
    loaded.require()
    return loaded


def _listing(loaded: Loaded[Squad] | None, folder: Path) -> str | None:
    """The squad's file where the folder is one of its athletes' folders."""
    if loaded is None:
        return None
    places = [Path(loaded.path).parent / name for name in loaded.require().athletes]
    return loaded.path if any(place.resolve() == folder.resolve() for place in places) else None


class _Folder:
    """The athletes' files that are there, by their file's name and by the athlete's."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self._raw: dict[Path, tuple[bytes, str]] = {}
        self._called: dict[str, list[Path]] = {}
        self._born: dict[Path, str] = {}
        for path in sorted(folder.glob("*.yaml")) if folder.is_dir() else []:
            raw, _ = read_bytes(path, path.as_posix())
            if raw is None or b"file: athlete/" not in raw[:4096]:
                continue
            loaded = cast("Loaded[Athlete]", load_file(path, path.as_posix(), ("athlete/1",)))
            self._raw[path] = (raw, loaded.sha256)
            if loaded.value is not None:
                self._called.setdefault(slug(loaded.value.name), []).append(path)
                self._born[path] = str(loaded.value.birth_date)

    def raw(self, path: Path) -> tuple[bytes, str] | None:
        return self._raw.get(path)

    def path_of(self, person: SheetPerson, taken: dict[Path, SheetPerson]) -> tuple[Path, list[Finding]]:
        """The file of an athlete: by id, else by name."""
        name = slug(person.id or person.name or "")
        if not name:
            return self._folder / "x", [
                person.at.finding("no-name", f"'{person.called}' gives no name for a file", "add a column id")
            ]
        path = self._folder / f"{name}.yaml"
        called, born = self._called.get(name, []), person.fields.get("birth_date")
        if person.id is None and path not in self._raw and called:
            path = called[0]
        findings = []
        if path in taken:
            message = f"'{person.called}' and '{taken[path].called}' have one file, {path.name}"
            findings.append(person.at.finding("name-twice", message, "add a column id that tells them apart"))
        elif person.id is None and len(called) > 1:
            message = f"'{person.called}' has {len(called)} files: {', '.join(one.name for one in called)}"
            findings.append(person.at.finding("name-twice", message, "add a column id with the file's name"))
        elif born is not None and path in self._born and self._born[path] != str(born.value):
            message = f"'{person.called}' was born on {self._born[path]} by {path.name}"
            hint = "another athlete: add an id; else correct one of them"
            findings.append(born.cell.finding("other-birth-date", message, hint))
        return path, findings


def _target(person: SheetPerson, squad: Squad | None) -> dict[str, Data]:
    """The target section that a new athlete begins with; the sheet's own figure goes over it."""
    target = squad.target if squad else None
    own = next((name for name in ("touch", "rise") if f"target.{name}" in person.fields), None)
    if own is not None:
        method = "touch" if own == "touch" else target.method if target else "given"
        return {"target": {"method": method, **_by(target)}}
    if target is None:
        return {}
    if target.gain is not None:
        figure = _raised(person, target)
        return {"target": {**figure, "method": target.method, **_by(target)}} if figure else {}
    name = "touch" if target.touch is not None else "rise"
    there_m = getattr(target, name)
    return {"target": {name: _as_measured(person, there_m, f"{there_m:.4g} m"), "method": target.method, **_by(target)}}


def _by(target: SquadTarget | None) -> dict[str, Data]:
    return {"by": target.by} if target is not None and target.by is not None else {}


def _raised(person: SheetPerson, target: SquadTarget) -> dict[str, Data]:
    """The athlete's own test by the target's method and the gain, to the centimetre; empty where there is none."""
    steps = person.fields.get("approach.steps")
    run_up = steps is None or steps.value != 0
    assert target.gain is not None
    for day in reversed(person.tests):
        kind, says = day.test.kind, day.test.says
        fits = says.get("run_up", False) == run_up if kind in ("touch", "given-rise") else False
        if fits and {"touch": "touch", "given-rise": "given"}[kind] == target.method:
            trials = [parse_quantity(read.value, "length") for read in day.figures.values()]
            name = "touch" if kind == "touch" else "rise"
            there_m = middle(trials) + target.gain
            return {name: _as_measured(person, there_m, f"{round(there_m, 2):.2f} m")}
    return {}


def _as_measured(person: SheetPerson, length_m: float, metric: str) -> str:
    """As ``metric``, or to the half inch for who is measured in inches."""
    inches = (read := person.fields.get("stature")) is not None and is_imperial(read.value)
    return f"{round(2 * length_m / INCH_m) / 2:g} in" if inches else metric


def _without_load(read: SheetRead, there: _Folder) -> Iterator[Finding]:
    """New athletes whose recent load nobody told: their first weeks are planned a level lower."""
    lacking = [p for p in read.people if "recent_load.weekly_contacts" not in p.fields]
    new = [p for p in lacking if there.raw(there.path_of(p, {})[0]) is None]
    if new:
        names = first_of([p.called for p in new], 6)
        message = f"no recent load is given for {names}: the first two weeks are planned a level lower"
        hint = "fill contacts, sprints and sets a week, of a usual week of the last four"
        yield Finding(new[0].at.path.partition("!")[0], 0, 0, "no-recent-load", message, hint, level="warning")
