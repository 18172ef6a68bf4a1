"""The file that a text comes from, so that a finding names the line that the coach has to change."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol

from planner.domain.findings import Finding

Path = tuple[str | int, ...]


class Source(Protocol):
    """A file that was read, which can find the line of a field from its path. A loaded document is one."""

    @property
    def path(self) -> str: ...

    def finding(self, path: Path, code: str, message: str, hint: str = "") -> Finding: ...


@dataclass(frozen=True)
class NoFile:
    """A source for what was made in memory: findings name it but no line."""

    path: str

    def finding(self, path: Path, code: str, message: str, hint: str = "") -> Finding:
        return Finding(self.path, 0, 0, code, message, hint)
