"""What an athlete of a squad told of pain last."""

from __future__ import annotations

import datetime
from collections.abc import Iterator
from pathlib import Path

from planner.domain.athlete import Athlete
from planner.domain.block import Block
from planner.domain.training_log import LoggedSession
from planner.files.load import load_log
from planner.jobs.check_log import log_path

_DAYS = datetime.timedelta(days=7)


def pain_told(athlete: Athlete, block: Block | None, path: Path | None, until: datetime.date) -> int | None:
    """The most of any joint by the athlete's file and the log's last seven days up to a day; None: nothing is told.

    A log that cannot be read tells nothing here; ``check`` says what is wrong with it.
    """
    found = [joint.pain for joint in athlete.joints]
    if block is not None and path is not None and log_path(path).is_file():
        log = load_log(log_path(path), log_path(path).as_posix()).value
        planned = {session.id: session.date for session in block.sessions}
        told = [
            (entry.date or planned[entry.session], entry)
            for entry in (log.sessions if log is not None else ())
            if entry.done not in ("missed", "unfinished") and entry.session in planned
        ]
        last = max((day for day, _ in told if day <= until), default=until)
        found += [pain for day, entry in told if last - _DAYS < day <= last for pain in _pains(entry)]
    return max(found, default=None)


def _pains(entry: LoggedSession) -> Iterator[int]:
    yield 0  # a session whose entry names no joint was one without pain
    for pain in entry.pain:
        yield from (one or 0 for one in (pain.before, pain.worst, pain.next_morning))
