"""A file that was read: its text, its tree, its digest, and the way from a field's path to a line."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Generic

from planner.domain.base import T
from planner.domain.findings import Finding, FindingLevel, UserError, has_errors
from planner.files.tree import Mark, Node, Path, mark_at


@dataclass(frozen=True)
class Document:
    """One file. ``path`` is the path as the user knows it; ``sha256`` is of the bytes.

    ``others``: files that parts of ``root`` were taken from; a mark's ``source`` says which.
    """

    path: str
    sha256: str
    text: str
    lines: tuple[str, ...]
    root: Node
    others: tuple[Document, ...] = ()

    def home(self, mark: Mark) -> Document:
        """The file that a mark is in."""
        return self.others[mark.source - 1] if mark.source else self

    def mark(self, path: Path, on_key: bool = False) -> Mark:
        return mark_at(self.root, path, on_key)

    def finding(
        self,
        at: Path | Mark,
        code: str,
        message: str,
        hint: str = "",
        *,
        on_key: bool = False,
        level: FindingLevel = "error",
        other: str = "",
    ) -> Finding:
        """A finding on the line of the value at ``at`` (or of its key), or of the nearest ancestor in the file."""
        mark = at if isinstance(at, Mark) else self.mark(at, on_key)
        home = self.home(mark)
        shown = home.lines[mark.line - 1] if mark.line <= len(home.lines) else ""
        return Finding(home.path, mark.line, mark.column, code, message, hint, level, shown, other)


@dataclass(frozen=True)
class Place:
    """``str(place)`` is ``path:line``."""

    path: str
    line: int
    column: int

    def __str__(self) -> str:
        return f"{self.path}:{self.line}"


@dataclass(frozen=True)
class Loaded(Generic[T]):
    """What loading gave: the value unless there is an error, every finding, and the means to point at a line.

    ``roots`` gives, for a value made from several files, the file and path behind a first step (such as a
    movement's id).
    """

    value: T | None
    findings: tuple[Finding, ...]
    sha256: str
    path: str
    documents: tuple[Document, ...] = ()
    roots: dict[str, tuple[Document, Path]] = field(default_factory=dict)

    def place(self, path: Path, on_key: bool = False) -> Place:
        """Where the value at ``path`` is, or its nearest ancestor; line and column 0 if nothing was read."""
        document, inside = self._inside(path)
        if document is None:
            return Place(self.path, 0, 0)
        mark = document.mark(inside, on_key)
        return Place(document.home(mark).path, mark.line, mark.column)

    def finding(
        self,
        path: Path,
        code: str,
        message: str,
        hint: str = "",
        *,
        on_key: bool = False,
        level: FindingLevel = "error",
        other: str = "",
    ) -> Finding:
        """A finding at ``path`` in this file, for the phases that come after loading."""
        document, inside = self._inside(path)
        if document is None:
            return Finding(self.path, 0, 0, code, message, hint, level, other=other)
        return document.finding(inside, code, message, hint, on_key=on_key, level=level, other=other)

    def require(self) -> T:
        """The value. Raises UserError with the findings where there is none."""
        if self.value is None or has_errors(self.findings):
            raise UserError(list(self.findings))
        return self.value

    def _inside(self, path: Path) -> tuple[Document | None, Path]:
        if path and isinstance(path[0], str) and path[0] in self.roots:
            document, prefix = self.roots[path[0]]
            return document, (*prefix, *path[1:])
        return (self.documents[0] if self.documents else None), path
