"""Entries of a log from notes as text and from spreadsheets of sets: all of a file, or none of it."""

from __future__ import annotations

import shlex
from pathlib import Path

from planner.domain.block import Session
from planner.domain.findings import Finding, UserError
from planner.domain.training_log import LoggedSession
from planner.files.digest import plan_digest
from planner.files.load import read_bytes
from planner.files.sets_sheet import SheetSession, read_sets
from planner.files.training_note import TrainingNote, read_notes
from planner.files.typed_sets import read_pain
from planner.jobs.follow_up_near import follow_up_near
from planner.jobs.log_block import OpenLog, Told, entry_of, typed, with_morning
from planner.past.done import differs

SHEETS = (".csv", ".xlsx")


def entries_from(path: str, opened: OpenLog) -> list[LoggedSession]:
    """The entries of one file; of two of a session the later one. UserError with every finding.

    What a sheet does not say of a session (its pain, say) is kept of the entry that is there.
    """
    if Path(path).suffix.lower() in SHEETS:
        headings = follow_up_near(opened.block_path).sheet
        return [_of_sheet(one, opened) for one in read_sets(Path(path), path, headings, opened.block)]
    raw, problems = read_bytes(Path(path), path)
    if raw is None:
        raise UserError(problems)
    notes, found = read_notes(raw.decode("utf-8", "replace"), path)
    if not notes and not found:
        hint = (
            "a spreadsheet of sets ends in .csv or .xlsx, a note is a line 'jb1 … end'; anything in free words has to "
        )
        hint += f"be typed in by jumpblock log {shlex.quote(str(opened.block_path))}"
        raise UserError([Finding(path, 0, 0, "no-note", "there is no note in this file", hint)])
    entries: dict[str, LoggedSession] = {}
    for note in notes:
        try:
            for entry in _of_note(note, entries, opened):
                entries[entry.session] = entry
        except UserError as error:
            found += [Finding(path, note.line, 1, one.code, one.message, one.hint) for one in error.findings]
    if found:
        raise UserError(found)
    return list(entries.values())


def _of_note(note: TrainingNote, earlier: dict[str, LoggedSession], opened: OpenLog) -> list[LoggedSession]:
    """The note's session, and the one before it where the note tells of the morning after that."""
    digest = plan_digest(opened.block)
    if not digest.startswith(note.plan):
        message, hint = f"the note belongs to another block, {note.plan}", f"this is {digest[:8]}; name the note's own"
        raise UserError([Finding("", 0, 0, "other-block", message, hint)])
    session = opened.session(note.session)
    told = Told(
        date=None if note.missed else note.date,
        written=note.written,
        missed=note.missed,
        effort=note.effort,
        minutes=note.minutes,
        items=note.items,
        pain=note.pain,
        body_mass=note.mass,
        note=note.note,
    )
    found = [entry_of(session, told, opened)]
    if note.morning:
        before = _before(session, earlier, opened)
        for text in note.morning:
            before = with_morning(before, typed("morning", lambda said: read_pain(said, morning=True), text))
        found.insert(0, before)
    return found


def _before(session: Session, earlier: dict[str, LoggedSession], opened: OpenLog) -> LoggedSession:
    """The last session done before this one, of this file or of the log."""
    there = opened.done_before(session)
    done = [one for one in [*([there] if there else []), *earlier.values()] if one.date and one.date < session.date]
    if not done:
        message = f"no session is logged before {session.id}, so there is no next morning to record"
        raise UserError([Finding("", 0, 0, "no-session-before", message, "log that session first")])
    return max(done, key=lambda one: str(one.date))


def _of_sheet(one: SheetSession, opened: OpenLog) -> LoggedSession:
    if one.missed is not None:
        return entry_of(one.session, Told(missed=one.missed, note=one.note), opened)
    before = opened.file.log.entry(one.session.id)
    if before is None or before.done == "missed":
        before = entry_of(one.session, Told(), opened)
    said = {name: getattr(one, name) for name in ("date", "effort", "minutes", "pain", "written", "body_mass", "note")}
    ids = [item.id for item in one.session.items]
    listed = {logged.item: logged for logged in (*before.items, *one.items)}
    items = tuple(sorted(listed.values(), key=lambda logged: ids.index(logged.item)))
    changed = any(differs(one.session.items[ids.index(logged.item)], logged) for logged in items)
    update = {name: value for name, value in said.items() if value is not None}
    return before.model_copy(update={**update, "items": items, "done": "changed" if changed else "as-planned"})
