"""From deficits to emphasis: a tilt for each quality, and the week's working sets distributed by the tilts.

Tilts move shares within a fixed budget, which falls only where every lift quality has to spare. Growth, level ceilings,
joint stress, minutes and pain are applied afterwards, in that order, and never give way to a tilt. The rule's numbers
are in the benchmarks file.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass

from planner.domain.emphasis_rule import EmphasisRule, SureRule
from planner.domain.terms import LIFT_QUALITIES, QUALITIES, Quality


@dataclass(frozen=True)
class Freed:
    """Where every lift quality has to spare: factors on the lifts' sets, and on the work that gets their time.

    ``fast``: on sprints and high-tier jumps, on top of their tilt. ``medium``: on medium-tier jumps.
    """

    lifts: float = 1.0
    fast: float = 1.0
    medium: float = 1.0


NOTHING_FREED = Freed()


def tilt(
    quality: Quality, *, deficit: float, confidence: float, rule: EmphasisRule, deficit_se: float | None = None
) -> float:
    """Factor on the template's share of a quality: clamp(1 + gain x confidence x deficit), 1 inside the dead zone.

    ``deficit_se``: with it, and where the rule says what a sure deficit moves, a lift's tilt is held to that as well.
    """
    push = confidence * deficit
    if abs(push) < rule.dead_zone:
        return 1.0
    low, high = rule.speed_range if quality == "speed-exposure" else rule.lift_range
    if rule.sure is not None and deficit_se is not None and deficit > 0 and quality in LIFT_QUALITIES:
        low, high = _by_sureness(deficit / deficit_se if deficit_se else rule.sure.errors, rule.sure, high)
    return min(max(1.0 + rule.gain * push, low), high)


def _by_sureness(errors: float, sure: SureRule, highest: float) -> tuple[float, float]:
    """Least and most tilt, by how many standard errors the deficit is: no cliff between unsure and sure."""
    share = min(max((errors - 1.0) / (sure.errors - 1.0), 0.0), 1.0)
    most = sure.unsure_most + share * (max(highest, sure.least_tilt) - sure.unsure_most)
    return 1.0 + share * (sure.least_tilt - 1.0), most


def tilt_se(quality: Quality, *, deficit: float, deficit_se: float, confidence: float, rule: EmphasisRule) -> float:
    """Half the change of the tilt when the deficit moves by its error either way; includes clamp and dead zone."""
    low, high = (
        tilt(quality, deficit=deficit + sign * deficit_se, confidence=confidence, rule=rule, deficit_se=deficit_se)
        for sign in (-1.0, 1.0)
    )
    return (high - low) / 2.0


def tilts(
    *,
    deficits: Mapping[Quality, float],
    confidences: Mapping[Quality, float],
    rule: EmphasisRule,
    errors: Mapping[Quality, float] | None = None,
) -> dict[Quality, float]:
    """A tilt for each of the five qualities; an untested one has no deficit and keeps its share.

    ``errors``: standard errors of the deficits, where they are known.
    """
    return {
        quality: tilt(
            quality,
            deficit=deficits.get(quality, 0.0),
            confidence=confidences.get(quality, 0.0),
            rule=rule,
            deficit_se=None if errors is None else errors.get(quality),
        )
        for quality in QUALITIES
    }


def freed_by_surplus(
    *, deficits: Mapping[Quality, float], confidences: Mapping[Quality, float], rule: EmphasisRule
) -> Freed:
    """What a surplus in every lift quality frees: the lifts' sum falls as their tilts do on average.

    Not below the rule's least. Sprints and jumps grow by the same share, the fast ones at most to the end of their
    range.
    """
    pushes = [deficits.get(quality, 0.0) * confidences.get(quality, 0.0) for quality in LIFT_QUALITIES]
    if rule.surplus_least_sum is None or max(pushes) > -rule.dead_zone:
        return NOTHING_FREED
    found = tilts(deficits=deficits, confidences=confidences, rule=rule)
    lifts = max(sum(found[quality] for quality in LIFT_QUALITIES) / len(LIFT_QUALITIES), rule.surplus_least_sum)
    more = 2.0 - lifts
    return Freed(lifts, max(min(more, rule.speed_range[1] / found["speed-exposure"]), 1.0), more)


def emphasised_sets(
    base_sets: Mapping[Quality, float],
    tilts: Mapping[Quality, float],
    lifts: float = 1.0,
    surely_short: Collection[Quality] = (),
) -> dict[Quality, float]:
    """The four qualities' working sets, tilted and scaled so that they sum to ``lifts`` times the base sum.

    A deficit inside its error takes from the others, but nothing from one that is ``surely_short``.
    """
    base = {quality: base_sets.get(quality, 0.0) for quality in LIFT_QUALITIES}
    total = lifts * sum(base.values())
    of_the_sure = {quality: tilts.get(quality, 1.0) for quality in LIFT_QUALITIES}
    unsure = [quality for quality in LIFT_QUALITIES if quality not in surely_short]
    of_the_sure |= {quality: min(of_the_sure[quality], 1.0) for quality in unsure if surely_short}
    sets = _scaled_to(base, of_the_sure, total)
    left = sum(sets[quality] for quality in unsure)
    return sets | _scaled_to({quality: base[quality] for quality in unsure}, tilts, left)


def _scaled_to(base: Mapping[Quality, float], tilts: Mapping[Quality, float], total: float) -> dict[Quality, float]:
    tilted = {quality: sets * tilts.get(quality, 1.0) for quality, sets in base.items()}
    scale = total / sum(tilted.values()) if sum(tilted.values()) > 0 else 1.0
    return {quality: sets * scale for quality, sets in tilted.items()}


def strong_and_sure(*, deficit: float, confidence: float, rule: EmphasisRule) -> bool:
    """Whether maximal strength exceeds its need surely enough to only maintain it from the intensify phase on."""
    return confidence * deficit < rule.strong_and_sure
