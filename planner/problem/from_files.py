"""From an athlete, a library, a template and benchmarks to the estimate and the Problem.

Both ``plan`` (to solve) and ``check`` (to audit) go this way, so that they see the same problem.
"""

from __future__ import annotations

import datetime
from dataclasses import dataclass, replace

from planner.domain.athlete import Athlete
from planner.domain.benchmarks import Benchmarks
from planner.domain.block_before import BlockBefore
from planner.domain.movement_library import Library
from planner.domain.template import Template
from planner.estimate.estimate_gap import GapResult, estimate_gap
from planner.estimate.notebook import Locate, nowhere
from planner.estimate.strength import chart_of
from planner.problem.after_block import as_left, with_pain
from planner.problem.build import build_problem
from planner.problem.by_hand import ByHand
from planner.problem.model import Deficit, Problem
from planner.problem.revised import Since


@dataclass(frozen=True)
class Inputs:
    """The four models a block is made from."""

    athlete: Athlete
    library: Library
    template: Template
    benchmarks: Benchmarks


def estimate_and_problem(
    inputs: Inputs,
    start: datetime.date | None = None,
    locate: Locate = nowhere,
    since: Since | None = None,
    by_hand: ByHand | None = None,
    before: BlockBefore | None = None,
) -> tuple[GapResult, Problem]:
    """Raises UserError with findings if the tests or the rules leave nothing to plan.

    ``since``: from when on a running block is planned anew. ``by_hand``: what a coach changed of it. ``before``: the
    block that it follows.
    """
    if before is not None:
        inputs = replace(inputs, athlete=as_left(inputs.athlete, before))
    if since is not None:
        inputs = replace(inputs, athlete=with_pain(inputs.athlete, since.pain))
    result = estimate_from(inputs, locate)
    problem = build_problem(
        athlete=inputs.athlete,
        library=inputs.library,
        template=inputs.template,
        tilts=result.emphasis.tilts,
        freed=result.emphasis.freed,
        surely_short=result.emphasis.surely_short,
        strong_and_sure=result.emphasis.strong_and_sure,
        deficits={
            quality: Deficit(one.deficit, one.deficit_se, one.confidence)
            for quality, one in result.qualities.items()
            if one.tested
        },
        weaker_legs=result.weaker_legs,
        one_rm_kg={key: estimate.value for key, estimate in result.one_rm_kg.items()},
        one_rm_se_kg={key: estimate.se for key, estimate in result.one_rm_kg.items()},
        start=start,
        load_table=chart_of(inputs.benchmarks.strength),
        since=since,
        by_hand=by_hand,
        before=before,
    )
    return result, problem


def estimate_from(inputs: Inputs, locate: Locate = nowhere) -> GapResult:
    """The estimate, with the name of each lift and the share of body mass that it moves from the library."""
    shares = {movement.id: movement.dose.body_mass_share for movement in inputs.library}
    names = inputs.library.names_inside
    return estimate_gap(inputs.athlete, inputs.benchmarks, body_mass_shares=shares, lift_names=names, locate=locate)
