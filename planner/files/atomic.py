"""Write a file whole or not at all."""

from __future__ import annotations

import contextlib
import os
import stat
import tempfile
from pathlib import Path

from planner.domain.findings import Finding, UserError
from planner.files.digest import file_sha256
from planner.files.locate import shown

WRITABLE = stat.S_IWUSR | stat.S_IWGRP | stat.S_IWOTH


def write_atomically(path: str | Path, content: bytes, expected_sha256: str | None = None) -> None:
    """Replace ``path`` by ``content`` in one step; on any failure the old file stays and nothing else is left.

    ``expected_sha256``: the digest of the bytes that were read before; "" if there was no file then. Raises UserError
    if the file has changed since, or cannot be written. A link is followed, and the file's permissions are kept.
    """
    target = Path(os.path.realpath(path))
    if target.is_dir():
        raise UserError([_finding(path, "cannot-write", "this is a folder, not a file", "name a file in it")])
    if target.exists() and not target.is_file():
        raise UserError([_finding(path, "cannot-write", "this is a device or a pipe, not a file", "name a file")])
    if target.exists() and not (target.stat().st_mode & WRITABLE and os.access(target, os.W_OK)):
        raise UserError([_finding(path, "cannot-write", "the file is read-only", "make it writable, or name another")])
    _refuse_if_changed(target, path, expected_sha256)
    temporary: str | None = None
    try:
        descriptor, temporary = tempfile.mkstemp(dir=target.parent, prefix=f".{target.name}.", suffix=".part")
        with os.fdopen(descriptor, "wb") as stream:
            stream.write(content)
            stream.flush()
            os.fsync(stream.fileno())
        os.chmod(temporary, _permissions(target))
        _refuse_if_changed(target, path, expected_sha256)
        os.replace(temporary, target)
        temporary = None
    except OSError as error:
        reason = error.strerror or "the system refused"
        message = f"the file cannot be written: {reason}"
        raise UserError([_finding(path, "cannot-write", message, "check the folder")]) from error
    finally:
        if temporary is not None:
            with contextlib.suppress(OSError):
                os.unlink(temporary)


def _refuse_if_changed(target: Path, path: str | Path, expected_sha256: str | None) -> None:
    if expected_sha256 is not None and file_sha256(target) != expected_sha256:
        message = "the file was changed since it was read"
        raise UserError([_finding(path, "changed-meanwhile", message, "run the command again")])


def _permissions(target: Path) -> int:
    """Those of the file that is replaced; for a new one what the user's settings give to new files."""
    try:
        return target.stat().st_mode & 0o7777
    except FileNotFoundError:
        mask = os.umask(0)
        os.umask(mask)
        return 0o666 & ~mask


def _finding(path: str | Path, code: str, message: str, hint: str) -> Finding:
    return Finding(shown(path), 0, 0, code, message, hint)
