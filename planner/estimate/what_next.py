"""Which row of the table "what next" a block's outcome falls in."""

from __future__ import annotations

from planner.domain.outcome_rule import Row


def row_of(*, strength_up: bool, jump_up: bool, share_done: float | None, least_done: float, sore: bool) -> Row:
    """A sore joint goes first. ``share_done``: None where no log tells it; it matters only where nothing went up."""
    if sore:
        return "sore-joint"
    if strength_up:
        return "both-up" if jump_up else "strength-up"
    if jump_up:
        return "jump-up"
    if share_done is None:
        return "neither-unknown"
    return "neither-done" if share_done >= least_done else "neither-not-done"
