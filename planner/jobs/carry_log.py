"""A revised block takes the log so far with it, so that one log tells the whole block; and who was revised to what."""

from __future__ import annotations

import os
import re
from pathlib import Path

from planner.domain.block import Block
from planner.domain.findings import Finding
from planner.files.atomic import write_atomically
from planner.files.digest import file_sha256, plan_digest
from planner.files.edit import edited_bytes
from planner.files.edit_steps import Put
from planner.files.load import load_log
from planner.files.locate import shown
from planner.files.written_paths import place_of, written_path
from planner.jobs.check_log import log_path

_REVISION = re.compile(
    r"^revision:\s+first_day: (?P<day>\S+)\s+"
    r"block:\s+\{?\s*path: (?P<mark>['\"]?)(?P<path>.+?)(?P=mark)(?:,|\s*$)",
    re.MULTILINE,
)


def carry_log(old: Path, new: Path, block: Block) -> list[Finding]:
    """Copy the log of ``old`` for ``block``, which is at ``new``. A log there that tells more is left alone."""
    source, target = log_path(old), log_path(new)
    if not source.is_file() or os.path.realpath(source) == os.path.realpath(target):
        return []
    before = file_sha256(target) if target.is_file() else ""
    if before and not _tells_no_more(target, source):
        message = f"there is a log of its own at {shown(target)}, which stays as it is"
        hint = f"{shown(source)} has what was logged so far"
        return [Finding(shown(target), 0, 0, "log-kept", message, hint, level="warning")]
    edits = [
        Put(("block", "path"), written_path(new, target.parent)),
        Put(("block", "plan_sha256"), plan_digest(block)),
    ]
    write_atomically(target, edited_bytes(source.read_bytes(), edits), before)
    return []


def _tells_no_more(target: Path, source: Path) -> bool:
    there, here = load_log(target).value, load_log(source).require()
    return there is not None and all(entry in here.sessions for entry in there.sessions)


def revised_since(path: Path) -> list[Finding]:
    """A note for each block next to ``path`` that was made of it by ``revise``: two blocks, and one is trained."""
    found = []
    for other in sorted(path.parent.glob("*.yaml")):
        said = _REVISION.search(_text_of(other))
        if said and not other.samefile(path) and place_of(said["path"], path.parent) == Path(os.path.realpath(path)):
            message = f"this block was revised from {said['day']} on: {shown(other)}"
            hint = f"if the revised one is trained, print from it and log to it: jumpblock log {shown(other)}"
            found.append(Finding(shown(path), 0, 0, "revised-since", message, hint, level="note"))
    return found


def _text_of(path: Path) -> str:
    """Nothing of what cannot be read: some other file of the folder is not this command's business."""
    try:
        return path.read_text("utf-8", "replace") if path.is_file() else ""
    except OSError:
        return ""
