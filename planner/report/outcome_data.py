"""The outcome as plain figures for ``--json``: metres, percent, days, chances."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from planner.estimate.belief import Verdict
from planner.estimate.other_lifts import OtherLift
from planner.estimate.retest_change import NotCompared, QualityChange, Tested
from planner.estimate.uncertainty import Estimate
from planner.report.block_result import Outcome

Data = dict[str, Any]
_DIGITS = 4


def outcome_data(outcomes: Sequence[Outcome], usual: Verdict | None) -> Data:
    """``usual``: a block's gain over several blocks; None for one."""
    return {
        "athlete": outcomes[0].athlete.name,
        "blocks": [_block(one) for one in outcomes],
        "gain_per_block_m": None if usual is None else verdict_data(usual),
    }


def _block(one: Outcome) -> Data:
    days = one.by_days
    return {
        "start": str(one.block.weeks[0].start),
        "test_day": str(one.test_day),
        "jump": {
            "before": _tested(one.before),
            "after": _tested(one.after),
            "by_tests_m": _estimate(one.by_tests_m),
            "by_jump_days": None
            if days is None
            else {**_estimate(days.change_m), "days": days.days, "jumps": days.jumps, "counts": days.agrees},
            **verdict_data(one.verdict),
            "prior_source": one.rule.jump.source,
        },
        "qualities": [_quality(line) for line in one.qualities],
        "lifts_together_percent": None if one.strength is None else verdict_data(one.strength),
        "lifts_of_no_quality": [_other_lift(lift) for lift in one.other_lifts],
        "share_done": None if one.share_done is None else round(one.share_done, _DIGITS),
        "body_mass_kg": {"before": one.block.gap.body_mass_kg, "now": one.athlete.body_mass},
        "sore_joints": list(one.sore),
        "methods": list(one.methods),
        "next": {"row": one.row, "says": one.rule.next_block[one.row]},
    }


def _tested(tested: Tested) -> Data:
    first = tested.heights[0]
    return {
        **_estimate(tested.rise_m),
        "method": first.method,
        "kind": first.kind,
        "test_days": [str(day) for day in tested.dates],
        "trials": tested.trials,
    }


def _quality(line: QualityChange | NotCompared) -> Data:
    if isinstance(line, NotCompared):
        return {"quality": line.quality, "not_compared": line.why}
    before, after = line.before, line.after
    return {
        "quality": line.quality,
        "test": before.test.id,
        "side": before.side,
        "unit": before.unit,
        "before": round(before.have, _DIGITS),
        "after": round(after.have, _DIGITS),
        **verdict_data(line.verdict),
    }


def _other_lift(lift: OtherLift) -> Data:
    return {
        "movement": lift.after.test.movement,
        "side": lift.side,
        "before_kg": _estimate(lift.before.one_rm_kg),
        "after_kg": _estimate(lift.after.one_rm_kg),
        "seen_percent": _estimate(lift.seen),
    }


def verdict_data(verdict: Verdict) -> Data:
    return {
        "seen": _estimate(verdict.seen),
        "prior": _estimate(verdict.usual),
        "believed": {**_estimate(verdict.believed), "interval": [round(end, _DIGITS) for end in verdict.interval]},
        "bare_interval": [round(end, _DIGITS) for end in verdict.bare],
        "worth_having_over": verdict.worth,
        "chance": round(verdict.chance, _DIGITS),
        "words": verdict.words,
        "worked": verdict.worked,
    }


def _estimate(one: Estimate) -> Data:
    return {"value": round(one.value, _DIGITS), "standard_error": round(one.se, _DIGITS)}
