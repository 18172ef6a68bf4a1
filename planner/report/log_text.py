"""What was written into a log, in a line a coach can check."""

from __future__ import annotations

import shlex

from planner.domain.block import AthleteLine, Item, Session
from planner.domain.terms import side_and_joint
from planner.domain.training_log import LoggedItem, LoggedPain, LoggedSession
from planner.files.typed_sets import item_text, load_text, pain_text
from planner.prescription.item_words import TIMES


def entry_lines(session: Session, entry: LoggedSession, athlete: AthleteLine) -> list[str]:
    """The session with how it went, then a line for each item that differed or was measured."""
    day = entry.date or session.date
    moved = "" if day == session.date else f", planned for {session.date:%a} {session.date}"
    said = {"missed": f"missed ({entry.why})", "as-planned": "as planned"}.get(entry.done, entry.done)
    parts = [said]
    if entry.effort is not None:
        parts.append(f"effort {entry.effort}")
    if entry.minutes is not None:
        parts.append(f"{entry.minutes} min")
    if entry.written != "same-day":
        parts.append("from memory" if entry.written == "later" else "written the next day")
    lines = [f"{session.id}, {day:%a} {day}{moved}: {', '.join(parts)}"]
    numbers = {item.id: (at, item.name) for at, item in enumerate(session.items, start=1)}
    for logged in entry.items:
        number, name = numbers[logged.item]
        planned = next(item for item in session.items if item.id == logged.item)
        shown = logged.model_copy(update={"movement": None}) if logged.movement == planned.movement else logged
        said = item_text(shown, athlete.mass_unit, athlete.length_unit, times=TIMES)
        lines.append(f"  {number}  {name}: {said}{in_each_hand(shown, planned, athlete)}")
    return [*lines, *(f"  pain {_pain_words(pain)}" for pain in entry.pain)]


def _pain_words(pain: LoggedPain) -> str:
    """``left knee: 2 before, 4 at worst``."""
    where = side_and_joint(pain.side, pain.joint)
    figures = ((pain.before, "before"), (pain.worst, "at worst"), (pain.next_morning, "next morning"))
    said = [f"{figure} {when}" for figure, when in figures if figure is not None]
    return f"{where}: {', '.join([*said, *pain.signs])}"


def in_each_hand(logged: LoggedItem, planned: Item, athlete: AthleteLine) -> str:
    """`` (20 lb in each hand)`` behind a load of two dumbbells, so that one who told that of one hand sees it."""
    loads = logged.loads or ((logged.load,) if logged.load else ())
    if planned.implement != "pair-of-dumbbells" or logged.movement is not None or not loads:
        return ""
    return f" ({', '.join(load_text(load / 2, athlete.mass_unit) for load in loads)} in each hand)"


def as_command(block_path: str, session: Session, entry: LoggedSession, athlete: AthleteLine) -> str:
    """The command that writes the same entry, for whoever wants to change one answer and not give them all again."""
    words = ["jumpblock", "log", block_path, session.id]
    for name in ("date", "effort", "minutes", "note"):
        value = getattr(entry, name)
        words += [] if value is None else [f"--{name}", str(value)]
    words += ["--written", entry.written] if entry.written != "same-day" else []
    words += ["--missed", str(entry.why)] if entry.done == "missed" else []
    ids = [item.id for item in session.items]
    for logged in entry.items:
        planned = session.items[ids.index(logged.item)].movement
        shown = logged.model_copy(update={"movement": None}) if logged.movement == planned else logged
        text = item_text(shown, athlete.mass_unit, athlete.length_unit)
        words += ["--item", str(ids.index(logged.item) + 1), text or "none"]
    for pain in entry.pain:
        words += ["--pain", pain_text(pain)]
    return shlex.join(words)
