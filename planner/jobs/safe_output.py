"""Where ``-o`` writes: what may be replaced there, and how."""

from __future__ import annotations

import contextlib
import os
from pathlib import Path

from planner.domain.findings import Finding, UserError
from planner.files.atomic import write_atomically
from planner.files.digest import file_sha256
from planner.files.locate import shown

STDOUT = "-"
_BLOCK_START = "block/"


class Output:
    """A file to be written. Made before the work is done, so that a refusal comes first and later changes are seen."""

    def __init__(self, path: str) -> None:
        self.path = path
        if path.endswith(("/", os.sep)):
            raise UserError([Finding(path, 0, 0, "cannot-write", "this names a folder", "name a file in it after -o")])
        if Path(path).exists() and not Path(path).is_file() and not Path(path).is_dir():
            message = "this is a device or a pipe, not a file"
            raise UserError([Finding(path, 0, 0, "cannot-write", message, "name a file after -o")])
        self._before = file_sha256(path) if Path(path).is_file() else ""
        self._old: bytes | None = None
        self._made: list[Path] = []

    def write(self, content: bytes) -> None:
        """Write the whole file or nothing, in a folder made if need be. UserError where it changed or cannot be."""
        folder = Path(self.path).parent
        self._made = [one for one in (folder, *folder.parents) if not one.exists()]
        try:
            make_folder(folder)
            self._old = Path(self.path).read_bytes() if self._before else None
            write_atomically(self.path, content, self._before)
        except BaseException:
            self._remove_made()
            raise

    def take_back(self) -> None:
        """Put back what was there before it was written, because a file that goes with it could not be written."""
        if self._old is not None:
            write_atomically(self.path, self._old)
            return
        Path(self.path).unlink(missing_ok=True)
        self._remove_made()

    def _remove_made(self) -> None:
        for one in self._made:  # the innermost first; one that holds something by now stays
            with contextlib.suppress(OSError):
                one.rmdir()


def make_folder(folder: Path) -> None:
    """With all above it. UserError where the system refuses."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        message = f"the folder cannot be made: {error.strerror or 'the system refused'}"
        raise UserError([Finding(str(folder), 0, 0, "cannot-write", message, "check the path")]) from error


def block_output(path: str, *, force: bool) -> Output:
    """A file for a block: new, or a block as the planner wrote it; ``force``: also one that was edited by hand.

    Raises UserError for any other file: a name mistyped must not cost an athlete's file.
    """
    output = Output(path)
    if not Path(path).exists():
        return output
    from planner.files.digest import is_as_solved
    from planner.files.load import load_block

    loaded = load_block(path)
    if not (loaded.value is not None or _says_block(path)):
        raise UserError([_refusal(path, "not-a-block", "this file already exists and is not a block", "after -o")])
    if not force and (loaded.value is None or not is_as_solved(loaded.value)):
        message = "this block was edited by hand, and planning again would lose that"
        raise UserError([_refusal(path, "edited-block", message, "after -o, or give --force")])
    return output


def planned_output(path: str, *, force: bool) -> Output:
    """As ``block_output``, but a block with a log stays: another in its place would leave the log alone."""
    output = block_output(path, force=force)
    if force or not Path(path).is_file():
        return output
    from planner.files.load import load_log
    from planner.jobs.check_log import log_path

    log = load_log(log_path(path), shown(log_path(path))).value if log_path(path).is_file() else None
    if log is not None and log.sessions:
        message = f"sessions of this block are logged in {shown(log_path(path))}; it is not overwritten"
        hint = "jumpblock revise plans its rest anew, plan --after goes on from it; or name another file after -o"
        raise UserError([Finding(path, 0, 0, "logged-block", message, f"{hint}, or give --force")])
    return output


def pdf_output(path: str) -> Output:
    """A file for cards: new, empty, or another PDF. Raises UserError for any other."""
    return _output_over(path, b"%PDF-", "PDF")


def new_output(path: str, *, force: bool) -> Output:
    """A file that is not there yet; ``force``: also one that is. A sheet may hold a day's work of tests."""
    output = Output(path)
    if Path(path).exists() and not force:
        raise UserError([_refusal(path, "already-there", "this file already exists", "after -o, or give --force")])
    return output


def calendar_output(path: str) -> Output:
    """A file for a calendar: new, empty, or another calendar. Raises UserError for any other."""
    return _output_over(path, b"BEGIN:VCALENDAR", "calendar")


def _output_over(path: str, start: bytes, kind: str) -> Output:
    output = Output(path)
    first = _first_bytes(path, len(start)) if Path(path).is_file() else b""
    if first and first.upper() != start:
        message = f"this file already exists and is not a {kind}"
        raise UserError([_refusal(path, f"not-a-{kind.lower()}", message, "after -o")])
    return output


def _refusal(path: str, code: str, message: str, where: str) -> Finding:
    return Finding(path, 0, 0, code, f"{message}; it is not overwritten", f"name another file {where}")


def _says_block(path: str) -> bool:
    """Whether a file that cannot be read as a block was one before it was edited."""
    first = _first_bytes(path, 200).decode("utf-8", "replace")
    return "file" in first.partition(_BLOCK_START)[0] and _BLOCK_START in first


def _first_bytes(path: str, count: int) -> bytes:
    if not Path(path).is_file():
        return b""
    try:
        with Path(path).open("rb") as stream:
            return stream.read(count)
    except OSError:
        return b""
