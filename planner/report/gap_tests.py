"""What the tests say beside the gap: every height by its method, both formulas, left and right, second opinions."""

from __future__ import annotations

from planner.domain.athlete import Athlete
from planner.domain.benchmarks import TakeOffLegs
from planner.estimate.gap import GapResult
from planner.estimate.heights import said
from planner.estimate.qualities import legs_of
from planner.estimate.story import QUALITY_NAMES
from planner.estimate.take_off import take_off_in_contact
from planner.units import POUND_FORCE_N

OTHER: dict[TakeOffLegs, TakeOffLegs] = {"one-leg": "two-leg", "two-leg": "one-leg"}


def kinds(result: GapResult, athlete: Athlete) -> list[str]:
    """Each kind of test that was taken: what it measures, how far one trial errs, and the standing of that."""
    lines = []
    for test_kind in dict.fromkeys(test.kind for test in athlete.tests):
        kind = result.benchmarks.test_kinds[test_kind]
        error = kind.length_error or kind.time_error or kind.share_error
        assert error is not None
        if kind.length_error:
            size = f"{100 * error.typical_error:g} cm, read to {100 * error.resolution:g} cm"
        elif kind.time_error:
            size = f"{1000 * error.typical_error:g} ms, read to {1000 * error.resolution:g} ms"
        else:
            size = f"{100 * error.typical_error:g} %, read to {100 * error.resolution:g} %"
        lines.append(f"{kind.name}: {kind.measures}. One trial errs by {size} ({error.source}).")
    return lines


def heights(result: GapResult, athlete: Athlete) -> list[str]:
    """One line a test; the one that counts is named. Never averaged, never compared without a word."""
    unit = athlete.print_as.length
    lines = []
    for one in result.jumps.heights:
        counts = "; this one counts" if one is result.jumps.height else ""
        lines.append(f"{one.described()}: rise {said(one, unit)}, mean of the best {min(2, one.trials)}{counts}.")
    if len({one.method for one in result.jumps.heights}) > 1:
        lines.append(
            "These are different quantities: for one and the same jump they differ by up to 15 cm (Xu et al. 2023, "
            "Sports Med 53:1055)."
        )
    return lines


def deficits(result: GapResult) -> list[str]:
    """Each tested quality's deficit and tilt with standard errors."""
    lines = []
    for line in result.gap.qualities:
        if line.deficit_se is None or line.emphasis_se is None:
            continue
        verdict = result.qualities[line.quality]
        if all(line.source != one.reading.source or line.side != one.side for one in verdict.counted):
            continue
        lines.append(
            f"{QUALITY_NAMES[line.quality]} ({line.side}): deficit {100 * line.deficit:+.1f} ± "
            f"{100 * line.deficit_se:.1f} %, emphasis x {line.emphasis:.2f} ± {line.emphasis_se:.2f}"
            + ("; the deficit is less than twice its error." if abs(line.deficit) < 2 * line.deficit_se else ".")
        )
    return lines


def lifts(result: GapResult) -> list[str]:
    return [
        f"{movement}{f' ({side})' if side != 'both' else ''}, {one.describe()}: Epley {one.epley_kg:.1f} kg, Brzycki "
        f"{one.brzycki_kg:.1f} kg; used {one.one_rm_kg.value:.1f} ± {one.one_rm_kg.se:.1f} kg."
        for (movement, side), one in result.maxima.items()
    ]


def sides(result: GapResult) -> list[str]:
    lines = []
    for one in result.gap.sides:
        digits = {"m": 2, "N": 0, "reps": 0}.get(one.unit, 1)
        figures = f"{one.test}: left {one.left:.{digits}f}, right {one.right:.{digits}f} {one.unit}"
        apart = f"{abs(one.difference_percent):.0f} ± {one.error_percent:.0f} %"
        verdict = f"{one.weaker} weaker by {apart}" if one.weaker else f"no difference beyond the error ({apart})"
        lines.append(f"{figures}: {verdict}.")
    return lines


def opinions(result: GapResult) -> list[str]:
    lines = []
    for one in result.gap.second_opinions:
        value = f"{one.value:,.0f} W" if one.unit == "W" else f"{one.value:.2f} {one.unit}".strip()
        lines.append(f"{one.name}: {value}: {one.says}. Caution: {one.caution}. Source: {one.source}.")
    return lines


def other_legs(result: GapResult) -> list[str]:
    """The same rise off the other number of legs, in the contact that is usual for it: an example, not a test."""
    contact = result.inputs.contact_time_s
    legs = legs_of(result.take_off)
    usual = result.benchmarks.take_offs[OTHER[legs]].contact
    if contact is None:
        usual = result.benchmarks.take_offs[legs].contact
    take_off = take_off_in_contact(
        rise_m=result.inputs.rise_target_m.value,
        body_mass_kg=result.inputs.body_mass_kg.value,
        contact_time_s=usual.value,
        g=result.inputs.g,
    )
    force_N = take_off.mean_ground_force_N
    figures = (
        f"{force_N:,.0f} N, {force_N / POUND_FORCE_N:,.0f} lbf, {take_off.mean_ground_force_bw:.2f} body weights in "
        f"{usual.value:.2f} s"
    )
    if contact is None:
        return [f"Off a run-up instead, in a usual contact: target {figures} (a stand-in; {usual.source})."]
    number = "two legs, shared by both" if OTHER[legs] == "two-leg" else "one leg"
    return [f"The target's rise off {number}: {figures} (a stand-in; {usual.source})."]
