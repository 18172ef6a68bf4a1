"""What a log says by itself: one entry a session, in order of date, and figures that fit together."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from planner.domain.findings import Finding
from planner.domain.training_log import WHY_MISSED, LoggedItem, LoggedSession, TrainingLog
from planner.files.document import Loaded
from planner.files.sense.repeats import repeats
from planner.files.tree import Path


def log_sense(loaded: Loaded[TrainingLog]) -> list[Finding]:
    log = loaded.require()
    found = [*_twice(log, loaded), *_order(log, loaded)]
    for index, entry in enumerate(log.sessions):
        at: Path = ("sessions", index)
        found += [*_entry(entry, at, loaded), *_pain(entry, at, loaded)]
        for number, item in enumerate(entry.items):
            found += _item(item, (*at, "items", number), loaded)
        found += _items_twice(entry, at, loaded)
    return found


def _twice(log: TrainingLog, loaded: Loaded[TrainingLog]) -> Iterator[Finding]:
    for index, first in repeats(entry.session for entry in log.sessions):
        place = loaded.place(("sessions", first, "session"))
        message = f"'{log.sessions[index].session}' has two entries, the first on line {place.line}"
        at: Path = ("sessions", index, "session")
        yield loaded.finding(at, "two-entries", message, "keep one of them", other=str(place))


def _order(log: TrainingLog, loaded: Loaded[TrainingLog]) -> Iterator[Finding]:
    dated = [(index, entry) for index, entry in enumerate(log.sessions) if entry.date is not None]
    for (above_at, above), (index, entry) in pairwise(dated):
        if above.date is not None and entry.date is not None and entry.date < above.date:
            line = loaded.place(("sessions", above_at, "date")).line
            message = (
                f"{entry.session} is dated {entry.date}, before {above.session} above it ({above.date}, line {line})"
            )
            hint = "correct the date, or move the entry up: entries go by date"
            yield loaded.finding(("sessions", index, "date"), "dates-out-of-order", message, hint)


def _entry(entry: LoggedSession, at: Path, loaded: Loaded[TrainingLog]) -> Iterator[Finding]:
    if entry.done == "missed":
        if entry.why is None:
            hint = f"add why: {', '.join(WHY_MISSED[:-1])} or {WHY_MISSED[-1]}"
            yield loaded.finding(at, "no-reason", f"{entry.session} was missed, but the entry does not say why", hint)
        for name in ("effort", "minutes", "items"):
            if getattr(entry, name) not in (None, ()):
                message = f"{entry.session} was missed, but the entry has {name}"
                hint = "delete them, or write done: changed"
                yield loaded.finding((*at, name), "missed-but-done", message, hint, on_key=True)
        return
    if entry.date is None:
        hint = "add date: year-month-day, the day it was done"
        yield loaded.finding(at, "no-date", f"{entry.session} was done, but the entry has no date", hint)
    if entry.why is not None:
        message = f"'why' is for a missed session, but {entry.session} was done"
        yield loaded.finding((*at, "why"), "not-missed", message, "write done: missed, or note: instead", on_key=True)


def _pain(entry: LoggedSession, at: Path, loaded: Loaded[TrainingLog]) -> Iterator[Finding]:
    twice = dict(repeats((pain.joint, pain.side) for pain in entry.pain))
    for index, pain in enumerate(entry.pain):
        here: Path = (*at, "pain", index)
        where = f"{pain.joint}{f', {pain.side}' if pain.side else ''}"
        if index in twice:
            yield loaded.finding(here, "two-entries", f"pain of {where} is written twice", "keep one of them")
        if (pain.before, pain.worst, pain.next_morning) == (None, None, None) and not pain.signs:
            hint = "add before, worst or next_morning, each 0 to 10"
            yield loaded.finding(here, "no-figure", f"pain of {where} has no figure", hint)


def _items_twice(entry: LoggedSession, at: Path, loaded: Loaded[TrainingLog]) -> Iterator[Finding]:
    for index, _ in repeats(item.item for item in entry.items):
        message = f"'{entry.items[index].item}' has two lines in {entry.session}"
        yield loaded.finding((*at, "items", index, "item"), "two-entries", message, "keep one of them")


def _item(item: LoggedItem, at: Path, loaded: Loaded[TrainingLog]) -> Iterator[Finding]:
    if item.load is not None and item.loads:
        message = f"{item.item} has both load and loads"
        yield loaded.finding((*at, "loads"), "load-twice", message, "keep load for all sets, or loads for each")
    sets = item.sets if item.sets is not None else len(item.reps) or None
    for name in ("reps", "loads"):
        count = len(getattr(item, name))
        if sets is not None and count and count != sets:
            said = f"{sets} sets" if item.sets is not None else f"reps of {sets} sets"
            message = f"{item.item} has {said}, and {name} of {count}"
            yield loaded.finding((*at, name), "sets-disagree", message, f"write {name} of every set")
    if sets is not None and len(item.reps_in_reserve) > sets:
        message = f"{item.item} has {sets} sets, and reps_in_reserve of {len(item.reps_in_reserve)}"
        yield loaded.finding((*at, "reps_in_reserve"), "sets-disagree", message, "write one figure a set at most")
