"""A test added to an athlete's file: between the lines already there, comments and layout kept."""

from __future__ import annotations

import datetime
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any, cast

from planner.domain.findings import Finding, UserError
from planner.files.atomic import write_atomically
from planner.files.edit import edited_bytes
from planner.files.edit_steps import CannotEdit, FileEdit, Insert, Put
from planner.files.load import load_athlete_bytes, read_bytes


class AthleteFile:
    """An athlete's file that gets a test. Read before the work is done, so that later changes are seen."""

    def __init__(self, path: str) -> None:
        self.path = path
        raw, findings = read_bytes(Path(path), path)
        if raw is None:
            raise UserError(findings)
        self._raw = raw
        self._loaded = load_athlete_bytes(raw, path)
        self.athlete = self._loaded.require()

    def with_tests(self, entries: Sequence[Mapping[str, Any]], body_mass: str | None = None) -> bytes:
        """The file with these tests as its last ones, and another body mass if one is given.

        Raises UserError where it would not be a whole file.
        """
        count = len(self.athlete.tests)
        steps: list[FileEdit] = [Insert(("tests",), count + at, entry) for at, entry in enumerate(entries)]
        if body_mass is not None:
            steps.append(Put(("body_mass",), body_mass))
        try:
            raw = edited_bytes(self._raw, steps)
        except CannotEdit as refusal:
            message = f"the test cannot be added: {refusal.message}"
            raise UserError([Finding(self.path, 0, 0, "cannot-add", message, refusal.hint)]) from refusal
        load_athlete_bytes(raw, self.path).require()
        return raw

    def write(self, raw: bytes) -> None:
        """Replace the file in one step, unless it was changed meanwhile."""
        write_atomically(self.path, raw, self._loaded.sha256)

    def has_same(self, entry: Mapping[str, Any]) -> bool:
        """Whether a platform test of that day and jump is in the file already."""
        day = cast(datetime.date, entry["date"])
        return any(
            test.kind == "force-platform" and test.date == day and test.jump == entry["jump"]
            for test in self.athlete.tests
        )
