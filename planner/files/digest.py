"""Digests that tell a block as it was solved from one edited by hand, and an input from a later version of itself."""

from __future__ import annotations

import hashlib

from planner.domain.block import Block


def plan_digest(block: Block) -> str:
    """Digest of everything in the block but the digest itself.

    Values at their default are left out: a field that a later version adds does not make an old block an edited one.
    """
    return hashlib.sha256(block.model_dump_json(exclude={"plan_sha256"}, exclude_defaults=True).encode()).hexdigest()


def is_as_solved(block: Block) -> bool:
    """Whether nothing has been changed since the solver wrote the block; only then does its proof hold."""
    return block.plan_sha256 == plan_digest(block)
