"""Findings of the estimate, built in one place, with the line in the file if the caller can locate it."""

from __future__ import annotations

from collections.abc import Callable

from planner.domain.findings import Finding, FindingLevel, has_errors

Keys = tuple[str | int, ...]
# The place of a value in the athlete's file: (path, line, column), given its keys such as ("tests", 2, "reps").
Locate = Callable[[Keys], tuple[str, int, int]]


def nowhere(keys: Keys) -> tuple[str, int, int]:
    """The place for athletes that do not come from a file."""
    return "", 0, 0


class Notebook:
    """Collects findings during an estimate; its owner raises the errors together at the end."""

    def __init__(self, locate: Locate = nowhere) -> None:
        self._locate = locate
        self.findings: list[Finding] = []
        self.dropped: dict[int, list[Finding]] = {}

    def add(self, level: FindingLevel, code: str, message: str, *, hint: str = "", at: Keys = ()) -> None:
        path, line, column = self._locate(at)
        self.findings.append(Finding(path, line, column, code, message, hint, level))

    def drop(self, test: int, code: str, message: str, *, hint: str, at: Keys = ()) -> None:
        """A warning that a test, or a trial of it, is not believed; ``test``: its number; ``at``: keys inside it."""
        self.add("warning", code, message, hint=hint, at=("tests", test, *at))
        known = self.dropped.setdefault(test, [])
        if self.findings[-1] not in known:
            known.append(self.findings[-1])

    @property
    def has_errors(self) -> bool:
        return has_errors(self.findings)
