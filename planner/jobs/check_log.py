"""A log against the block it is of: what ``check`` says of it, and what every command that reads one asks first."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from planner.domain.block import Block
from planner.domain.findings import Finding
from planner.domain.training_log import TrainingLog
from planner.files.document import Loaded
from planner.files.load import load_block, load_log, then
from planner.files.log_references import log_references
from planner.files.render import in_order
from planner.jobs.block_references import follow

if TYPE_CHECKING:  # writing into a log needs no rules
    from planner.jobs.check_block import LoadLibrary

LOG_ENDING = "-log.yaml"


def log_path(block: str | Path) -> Path:
    """Where the log of a block is unless said otherwise: ``ana-block-log.yaml`` next to ``ana-block.yaml``."""
    path = Path(block)
    return path.with_name(f"{path.stem}{LOG_ENDING}")


def check_log(path: Path, display: str, load_library: LoadLibrary) -> list[Finding]:
    """Every finding on a log: its form, its sense, and whether its block has what it names."""
    loaded = load_log(path, display)
    log = loaded.value
    if log is None:
        return list(loaded.findings)
    place = follow(log.block.path, path.parent)
    if not place.is_file():
        hint = "fix the path, which is relative to the log's folder; without its block a log cannot be read"
        message = f"the block is not at {log.block.path}"
        return in_order([*loaded.findings, loaded.finding(("block", "path"), "cannot-read", message, hint)])
    block = load_block(place).value
    if block is None:
        message, hint = f"the block {log.block.path} has findings of its own", f"jumpblock check {log.block.path}"
        return in_order([*loaded.findings, loaded.finding(("block", "path"), "block-not-read", message, hint)])
    return list(against(loaded, block, place.parent, load_library).findings)


def against(loaded: Loaded[TrainingLog], block: Block, folder: Path, load_library: LoadLibrary) -> Loaded[TrainingLog]:
    """The log held against its block, which is in ``folder``. Movements are looked up where the block's library is."""
    place = follow(block.library.path, folder)
    library = load_library(place, block.library.path).value if place.is_dir() else None
    movements = None if library is None else library.movements
    return then(loaded, lambda one: log_references(one, block, movements))
