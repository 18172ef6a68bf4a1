"""Digests: they tell a block as solved from one edited by hand, and a file from a later version of itself."""

from __future__ import annotations

import hashlib
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:  # whoever reads an athlete's file does not load the models of a block
    from planner.domain.block import Block


def sha256_of(raw: bytes | None) -> str:
    """The digest of a file's bytes; "" for a file that is not there."""
    return "" if raw is None else hashlib.sha256(raw).hexdigest()


def file_sha256(path: str | Path) -> str:
    """The digest of a file; "" if there is none."""
    try:
        return sha256_of(Path(path).read_bytes())
    except FileNotFoundError:
        return ""


def plan_digest(block: Block) -> str:
    """Digest of everything in the block but the digest itself.

    Values at their default are left out: a field that a later version adds does not make an old block an edited one.
    """
    return sha256_of(block.model_dump_json(exclude={"plan_sha256"}, exclude_defaults=True).encode())


def is_as_solved(block: Block) -> bool:
    """Whether nothing has been changed since the solver wrote the block; only then does its proof hold."""
    return block.plan_sha256 == plan_digest(block)
