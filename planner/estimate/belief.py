"""What to believe of a measured change: it and the usual gain, each by how sure it is; the chance that it matters.

The usual gain is a normal prior. All of it is plain arithmetic, so that arrays of athletes go through it as one does.
"""

from __future__ import annotations

from dataclasses import dataclass
from statistics import NormalDist

from planner.domain.outcome_rule import OutcomeRule
from planner.estimate.uncertainty import Estimate

_NORMAL = NormalDist()


@dataclass(frozen=True)
class Verdict:
    """A change as seen, what is usual, what to believe; all in one unit, as ``worth`` is.

    ``bare``: the interval of the seen change alone, wider by half a step of the scale at either end; ``interval``:
    that of what is believed. ``worked``: likely worth having, and the bare interval lies above 0.
    """

    seen: Estimate
    usual: Estimate
    believed: Estimate
    worth: float
    chance: float
    words: str
    bare: tuple[float, float]
    interval: tuple[float, float]
    worked: bool


def verdict_on(seen: Estimate, usual: Estimate, worth: float, rule: OutcomeRule, step: float = 0.0) -> Verdict:
    """``step``: how far two readings of the change are apart at least, where a scale is read to whole marks."""
    believed = believe(seen, usual)
    chance = chance_above(believed, worth)
    return Verdict(
        seen=seen,
        usual=usual,
        believed=believed,
        worth=worth,
        chance=chance,
        words=chance_words(chance, rule),
        bare=bare_interval(seen, rule, step),
        interval=interval(believed, rule.believed_interval),
        worked=worked(seen, believed, worth, rule, step),
    )


def believe(seen: Estimate, usual: Estimate) -> Estimate:
    """w = s0^2 / (s0^2 + se^2); w d + (1 - w) m0, with the error sqrt(w) se."""
    weight = usual.se**2 / (usual.se**2 + seen.se**2)
    return Estimate(weight * seen.value + (1 - weight) * usual.value, weight**0.5 * seen.se)


def interval(one: Estimate, share: float) -> tuple[float, float]:
    """The middle ``share`` of it."""
    reach = _NORMAL.inv_cdf(0.5 + share / 2) * one.se
    return one.value - reach, one.value + reach


def chance_above(one: Estimate, least: float) -> float:
    return 1.0 - _NORMAL.cdf((least - one.value) / one.se) if one.se > 0 else float(one.value > least)


def chance_words(chance: float, rule: OutcomeRule) -> str:
    if chance >= rule.almost_surely_from:
        return "almost surely"
    if chance >= rule.likely_from:
        return "likely"
    return "unlikely" if chance < rule.unlikely_below else "cannot tell"


def bare_interval(seen: Estimate, rule: OutcomeRule, step: float) -> tuple[float, float]:
    """Of the seen change alone. A change read as 5 cm is any from half a step below to half a step above."""
    low, high = interval(seen, rule.bare_interval)
    return low - step / 2, high + step / 2


def worked(seen: Estimate, believed: Estimate, worth: float, rule: OutcomeRule, step: float = 0.0) -> bool:
    """The two conditions: likely worth having, and the seen change alone speaks against no gain at all."""
    likely = believed.value - _NORMAL.inv_cdf(rule.likely_from) * believed.se >= worth
    return likely & (bare_interval(seen, rule, step)[0] > 0)
