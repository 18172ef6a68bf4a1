"""What a revised block changes, as plain data for ``--json``."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from planner.domain.block import Block
from planner.domain.terms import Day
from planner.files.dump import block_as_data
from planner.report.revise_text import cards_to_print, other_loads
from planner.solve.reasons import Change

Data = dict[str, Any]


def revise_data(old: Block, new: Block, changes: Sequence[Change], moved: dict[Day, Day]) -> Data:
    """What ``revise_text`` says, in full, with the revised block."""
    revision = new.revision
    return {
        "first_day": None if revision is None else str(revision.first_day),
        "cards_to_print": cards_to_print(old, new),
        "other_loads": other_loads(old, new),
        "days_moved": dict(moved),
        "changes": [_change(change) for change in changes],
        "forced": [] if revision is None else [one.model_dump(mode="json") for one in revision.forced],
        "shortfalls": [one.model_dump(mode="json") for one in new.shortfalls],
        "proof": new.proof.model_dump(mode="json"),
        "block": block_as_data(new),
    }


def _change(change: Change) -> Data:
    return {
        "weeks": list(change.weeks),
        "day": change.day,
        "out": change.out,
        "into": change.into,
        "sets": None if change.sets is None else {"before": change.sets[0], "after": change.sets[1]},
        "shape": change.shape,
        "because": change.because,
    }
