"""A log against its block: sessions, items and movements that it names, figures that look like slips, another block."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Literal

from planner.domain.block import Block, Item, Session
from planner.domain.findings import Finding
from planner.domain.movement import Movement
from planner.domain.training_log import LoggedItem, LoggedSession, TrainingLog
from planner.files.digest import plan_digest
from planner.files.document import Loaded
from planner.files.suggest import did_you_mean
from planner.files.tree import Path
from planner.units import format_mass

# Beyond these a figure is taken for a slip of the pen: only a warning, since an athlete may surprise. Own.
_MOST_TIMES_REPS, _MORE_REPS = 2, 5
_MOST_TIMES_LOAD = 2.0
_MOST_DAYS_OFF = 14


def log_references(
    loaded: Loaded[TrainingLog], block: Block, movements: Mapping[str, Movement] | None = None
) -> list[Finding]:
    """Every finding on a log next to its block. ``movements``: the library's by id; left out, they are not checked."""
    log = loaded.require()
    sessions = {session.id: session for session in block.sessions}
    homes = {item.id: session.id for session in sessions.values() for item in session.items}
    found: list[Finding] = []
    unit = block.for_athlete.mass_unit
    for index, entry in enumerate(log.sessions):
        at: Path = ("sessions", index)
        session = sessions.get(entry.session)
        if session is None:
            message = f"the block has no session '{entry.session}'"
            hint = did_you_mean(entry.session, sessions)
            found.append(loaded.finding((*at, "session"), "unknown-session", message, hint))
            continue
        found += _far_off(entry, session, at, loaded)
        for number, item in enumerate(entry.items):
            found += _item(item, session, homes, movements, unit, (*at, "items", number), loaded)
    return [*_other_block(log, block, sessions, found, loaded), *found]


def _other_block(
    log: TrainingLog, block: Block, sessions: dict[str, Session], found: list[Finding], loaded: Loaded[TrainingLog]
) -> Iterator[Finding]:
    """Which entries still fit a block that has changed since the log was begun."""
    if log.block.plan_sha256 == plan_digest(block) or not log.sessions:
        return
    wrong = [entry.session for entry in log.sessions if not _fits(entry, sessions)]
    count = len(log.sessions)
    if not wrong:
        said = "its entry still fits" if count == 1 else f"all {count} entries still fit"
    else:
        fits = count - len(wrong)
        said = f"{fits or 'none'} of {count} entries still {'fits' if fits == 1 else 'fit'}, not {', '.join(wrong)}"
    message = f"the block has changed since the log was begun: {said}"
    hint = "fix the lines below, or name the block that was trained" if wrong else "the next entry takes the change in"
    yield loaded.finding(("block", "plan_sha256"), "changed-block", message, hint, level="warning")


def _fits(entry: LoggedSession, sessions: dict[str, Session]) -> bool:
    session = sessions.get(entry.session)
    if session is None or (entry.date is not None and abs((entry.date - session.date).days) > _MOST_DAYS_OFF):
        return False
    ids = [item.id for item in session.items]
    return all(item.item in ids for item in entry.items)


def _far_off(entry: LoggedSession, session: Session, at: Path, loaded: Loaded[TrainingLog]) -> Iterator[Finding]:
    if entry.date is None:
        return
    days = (entry.date - session.date).days
    if abs(days) > _MOST_DAYS_OFF:
        message = (
            f"{entry.session} is dated {entry.date}, {abs(days)} days {'after' if days > 0 else 'before'} its plan"
        )
        hint = f"it was planned for {session.date}; check month and year"
        yield loaded.finding((*at, "date"), "far-from-plan", message, hint, level="warning")


def _item(
    logged: LoggedItem,
    session: Session,
    homes: dict[str, str],
    movements: Mapping[str, Movement] | None,
    mass_unit: Literal["kg", "lb"],
    at: Path,
    loaded: Loaded[TrainingLog],
) -> Iterator[Finding]:
    item = next((one for one in session.items if one.id == logged.item), None)
    if item is None:
        home = homes.get(logged.item)
        message = f"{session.id} has no item '{logged.item}'"
        hint = f"it is an item of {home}" if home else did_you_mean(logged.item, [one.id for one in session.items])
        yield loaded.finding((*at, "item"), "unknown-item", message, hint)
        return
    if logged.movement is not None and movements is not None and logged.movement not in movements:
        message = f"'{logged.movement}' is not in the library"
        hint = did_you_mean(logged.movement, movements) or "add it to the library"
        yield loaded.finding((*at, "movement"), "unknown-movement", message, hint)
    elif logged.movement in (None, item.movement):
        yield from _slips(logged, item, movements, mass_unit, at, loaded)


def without_load(item: Item, movements: Mapping[str, Movement] | None) -> str:
    """``a jump without a load``, ``a sprint without a load``; empty where an entry may have one, as on a sled."""
    if item.implement or item.load_kg:
        return ""
    if item.tier:
        return "a jump without a load"
    known = None if movements is None else movements.get(item.movement)
    pulls = known is None or (known.sprint is not None and known.sprint.sort == "resisted")
    return "a sprint without a load" if item.part == "sprint" and not pulls else ""


def _slips(
    logged: LoggedItem,
    item: Item,
    movements: Mapping[str, Movement] | None,
    mass_unit: Literal["kg", "lb"],
    at: Path,
    loaded: Loaded[TrainingLog],
) -> Iterator[Finding]:
    """Figures that are more likely a slip than a deed: 60 reps for 6, pounds for kilograms."""
    for index, reps in enumerate(logged.reps):
        if item.reps and reps > _MOST_TIMES_REPS * item.reps + _MORE_REPS:
            message = f"{logged.item}, set {index + 1}: {reps} reps; the card has {item.reps}"
            meant = reps // 10 if reps >= 10 and reps % 10 == 0 else None
            hint = f"did you mean {meant}?" if meant else "check the figure"
            yield loaded.finding((*at, "reps", index), "reps-far-above-plan", message, hint, level="warning")
    for load_kg in dict.fromkeys(filter(None, (logged.load, *logged.loads))):
        if item.load_kg and not item.load_kg / _MOST_TIMES_LOAD <= load_kg <= item.load_kg * _MOST_TIMES_LOAD:
            said, planned = format_mass(load_kg, mass_unit, 2), format_mass(item.load_kg, mass_unit, 2)
            path: Path = (*at, "load" if logged.load is not None else "loads")
            message = f"{logged.item}: a load of {said}; the card has {planned}"
            yield loaded.finding(path, "load-far-from-plan", message, "check the figure and its unit", level="warning")
    what = without_load(item, movements)
    if (logged.load or logged.loads) and what:
        message = f"{logged.item} is {what}, but the entry has one"
        path = (*at, "load" if logged.load is not None else "loads")
        hint = "move it to the item that was lifted, or take it out"
        yield loaded.finding(path, "no-lift", message, hint, on_key=True)
    if logged.touches and not item.tier and item.part != "test":
        message = f"{logged.item} is not a jump, but the entry has touches"
        yield loaded.finding((*at, "touches"), "no-jump", message, "move them to the item that was jumped", on_key=True)
