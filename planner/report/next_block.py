"""What a block leaves to the next one, with what a coach reads about it."""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from dataclasses import dataclass

from planner.domain.block import Block
from planner.domain.block_before import BlockBefore
from planner.domain.findings import Finding
from planner.report.block_result import Outcome
from planner.report.followed import Followed


@dataclass(frozen=True)
class NextBlock:
    """``start``: the next block's first day; ``rested``: easy days before it. ``path``: of the block before.

    ``outcome``: None where there is none, for the reason in ``no_outcome``. ``told``: its log, if there is one.
    ``longer``: by ladder of jumps, by how many percent contact is longer than before; None: not tested again.
    """

    path: str
    block: Block
    before: BlockBefore
    start: datetime.date
    rested: int
    outcome: Outcome | None
    no_outcome: str
    told: Followed | None
    longer: Mapping[str, float | None]
    warnings: tuple[Finding, ...]
