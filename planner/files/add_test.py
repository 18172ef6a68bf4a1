"""A test added to an athlete's file: between the lines already there, comments and layout kept."""

from __future__ import annotations

import datetime
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any, cast

from planner.domain.athlete import Athlete
from planner.domain.findings import Finding, UserError, has_errors
from planner.files.atomic import write_atomically
from planner.files.document import Loaded
from planner.files.edit import edited_bytes
from planner.files.edit_steps import CannotEdit, Edit, Insert, Put
from planner.files.load import load_bytes, read_bytes, then
from planner.files.sense.athlete_sense import athlete_sense


class AthleteFile:
    """An athlete's file that a test is to be added to. Read before the work is done, so that later changes are seen."""

    def __init__(self, path: str) -> None:
        self.path = path
        raw, findings = read_bytes(Path(path), path)
        if raw is None:
            raise UserError(findings)
        self._raw = raw
        self._loaded = _loaded(raw, path)
        self.athlete = self._loaded.require()

    def with_test(self, entry: Mapping[str, Any]) -> bytes:
        """The file with the test as its last one. Raises UserError where it would not be whole."""
        return self.with_tests([entry])

    def with_tests(self, entries: Sequence[Mapping[str, Any]], body_mass: str | None = None) -> bytes:
        """The file with these tests as its last ones, and with another body mass if one is given. Raises likewise."""
        count = len(self.athlete.tests)
        steps: list[Edit] = [Insert(("tests",), count + at, entry) for at, entry in enumerate(entries)]
        if body_mass is not None:
            steps.append(Put(("body_mass",), body_mass))
        try:
            raw = edited_bytes(self._raw, steps)
        except CannotEdit as refusal:
            message = f"the test cannot be added: {refusal.message}"
            raise UserError([Finding(self.path, 0, 0, "cannot-add", message, refusal.hint)]) from refusal
        after = _loaded(raw, self.path)
        if after.value is None or has_errors(list(after.findings)):
            raise UserError(list(after.findings))
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


def _loaded(raw: bytes, path: str) -> Loaded[Athlete]:
    return then(cast("Loaded[Athlete]", load_bytes(raw, path, ("athlete/1",))), athlete_sense)
