"""A finding: what is wrong in a file or a block, where, and what to do. Errors are data; nobody below cli/ prints."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Literal

from planner.domain.address import NOWHERE, Address

FindingLevel = Literal["error", "warning", "note"]


@dataclass(frozen=True, order=True)
class Finding:
    """One problem. ``line`` and ``column`` are 1-based, 0 where the finding concerns a whole file or no file.

    ``path`` is the path as the user knows it (``exercise_library/hops.yaml``), never a place inside an installation.
    ``other`` names a second place, ``path:line``, for duplicates and references across files. ``at``: what it is about
    in the block; ``keys``: in the athlete's file, from the top, for findings made before anybody knows the lines.
    """

    path: str
    line: int
    column: int
    code: str
    message: str
    hint: str = ""
    level: FindingLevel = "error"
    source_line: str = field(default="", compare=False)
    other: str = ""
    at: Address = field(default=NOWHERE, compare=False)
    keys: tuple[str | int, ...] = field(default=(), compare=False)


def has_errors(findings: Iterable[Finding]) -> bool:
    return any(finding.level == "error" for finding in findings)


class UserError(Exception):
    """The input, the rules or the target say no. Carries findings; the command prints them and exits 1."""

    def __init__(self, findings: list[Finding]) -> None:
        super().__init__("; ".join(finding.message for finding in findings))
        self.findings = findings
