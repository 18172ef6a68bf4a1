"""From an athlete's tests to force gap, qualities and emphasis: the whole estimate, step by step."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from planner.domain.athlete import Athlete
from planner.domain.benchmarks import Benchmarks
from planner.domain.findings import Finding, UserError
from planner.domain.gap import Gap, OutlookLine, RetestLine
from planner.domain.terms import Leg, Quality, TakeOff
from planner.estimate.contact import measured_contact
from planner.estimate.disagreements import note_disagreements
from planner.estimate.emphasis import strong_and_sure, tilt_se, tilts
from planner.estimate.findings import Locate, Notebook, nowhere
from planner.estimate.force_gap import ForceGap, TakeOffInputs, force_gap
from planner.estimate.gap_lines import height_lines, quality_lines, take_off_line
from planner.estimate.lifts import LiftKey, LiftMaximum, lift_maxima
from planner.estimate.outlook import Outlook, outlook_of, outlook_words
from planner.estimate.present_jump import Jumps, basis_of, is_off_run_up, jumps_of
from planner.estimate.push_off import measured_push_off
from planner.estimate.qualities import (
    Limits,
    QualityResult,
    axis_x,
    judge_qualities,
    limits,
)
from planner.estimate.retest import Retest, compare, retest_of
from planner.estimate.second_opinions import second_opinions
from planner.estimate.sides import side_differences
from planner.estimate.story import CAUTION, NOT_MEASURED, story
from planner.estimate.take_off import take_off_over_push_off
from planner.estimate.uncertainty import Estimate, inside_noise
from planner.estimate.useful_tests import useful_tests
from planner.estimate.weaker_leg import legs_with_extra_sets
from planner.estimate.words import Words, words_of


@dataclass(frozen=True)
class GapResult:
    """The estimate and what it rests on. The block keeps ``gap``; the rest is for the planner and the report."""

    gap: Gap
    findings: tuple[Finding, ...]
    one_rm_kg: Mapping[LiftKey, Estimate]
    tilts: Mapping[Quality, float]
    strong_and_sure: bool
    weaker_legs: Mapping[Quality, Leg]  # the legs that get an extra set, if the athlete's file asks for it
    jumps: Jumps
    inputs: TakeOffInputs
    force: ForceGap
    qualities: Mapping[Quality, QualityResult]
    limits: Limits
    target_x: float
    useful_tests: tuple[str, ...]
    benchmarks: Benchmarks
    outlook: Outlook
    retest: Retest
    maxima: Mapping[LiftKey, LiftMaximum]
    take_off: TakeOff


@dataclass(frozen=True)
class _Contact:
    """The contact time, or a standing jump's push-off distance, and where it comes from."""

    time_s: Estimate | None
    push_off_m: Estimate | None
    described: str


def estimate_gap(
    athlete: Athlete,
    benchmarks: Benchmarks,
    *,
    body_mass_shares: Mapping[str, float] | None = None,
    locate: Locate = nowhere,
) -> GapResult:
    """Force gap, qualities, emphasis and one-repetition maxima of one athlete.

    ``body_mass_shares``: the share of body mass that each of the library's movements lifts; ``one_rm_kg`` is computed
    with it, so that a percentage of it means what the library means. ``locate``: a value's place in the athlete's file.

    Raises UserError with every finding if the gap cannot be estimated: no test of the target jump, a target within
    reach, a flight time off a run-up.
    """
    notes = Notebook(locate)
    jumps = jumps_of(athlete, benchmarks, notes)
    if jumps is None:
        raise UserError(sorted(notes.findings))
    contact = _contact(athlete, benchmarks, notes)
    inputs = _inputs(athlete, benchmarks, jumps, contact)
    force = force_gap(inputs)
    words = words_of(athlete)
    _note_target(jumps, words, notes)
    compare(jumps.height, jumps.heights, jumps.heel_rise.se_m, benchmarks.retest, notes, words)

    maxima = lift_maxima(athlete, benchmarks, notes)
    # Loads on the cards use the library's share of body mass, readings use the benchmarks'.
    loads = lift_maxima(athlete, benchmarks, Notebook(), body_mass_shares)
    target_x, outside = axis_x(force.target.mean_ground_force_bw.value, athlete, benchmarks)
    now_x, _ = axis_x(force.now.mean_ground_force_bw.value, athlete, benchmarks)
    if outside:
        _note_outside(force, benchmarks, notes)
    results = judge_qualities(
        athlete=athlete,
        benchmarks=benchmarks,
        maxima=maxima,
        target_x=target_x,
        target_x_se=0.0 if outside else force.target.mean_ground_force_bw.se,
        notes=notes,
    )
    note_disagreements(results, benchmarks, notes)
    rule = benchmarks.emphasis
    tilted = tilts(
        deficits={quality: result.deficit for quality, result in results.items()},
        confidences={quality: result.confidence for quality, result in results.items()},
        rule=rule,
    )
    tilted_se = {
        quality: tilt_se(quality, deficit=one.deficit, deficit_se=one.deficit_se, confidence=one.confidence, rule=rule)
        for quality, one in results.items()
    }
    shares = limits(
        results,
        now_x=now_x,
        target_x=target_x,
        least_confidence=benchmarks.confidence.least_for_shares,
        dead_zone=rule.dead_zone,
    )
    noise = inside_noise(force.gap.mean_ground_force_N, noise_multiple=benchmarks.confidence.noise_multiple)
    useful = useful_tests(results, benchmarks, athlete)
    strength = results["maximal-strength"]
    wanted_m = jumps.rise_target_m.value - jumps.rise_now_m.value
    outlook = outlook_of(rise_now_m=jumps.rise_now_m.value, gain_wanted_m=wanted_m, rule=benchmarks.outlook)
    retest = retest_of(jumps.height, benchmarks.retest)
    sides = side_differences(athlete, benchmarks, maxima)
    weaker = legs_with_extra_sets(athlete, sides, benchmarks.weaker_leg, notes)
    opinions = second_opinions(athlete, benchmarks, jumps.heights, notes)
    gap = Gap(
        method=jumps.method,
        contact_time_s=_contact_time_s(inputs),
        contact_time_from=contact.described,
        push_off_m=inputs.push_off_m.value if inputs.push_off_m else None,
        body_mass_kg=athlete.body_mass,
        inside_noise=noise,
        now=take_off_line(force.now),
        target=take_off_line(force.target),
        gap=take_off_line(force.gap),
        qualities=tuple(line for result in results.values() for line in quality_lines(result, tilted, tilted_se)),
        strength_share=shares.strength_share,
        speed_share=shares.speed_share,
        next_test=useful[0] if useful else None,
        story=tuple(
            story(
                athlete=athlete,
                jumps=jumps,
                force=force,
                inside_noise=noise,
                results=results,
                limits=shares,
                benchmarks=benchmarks,
                outlook=outlook_words(outlook, wanted_m, benchmarks.outlook, words),
            )
        ),
        notes=(NOT_MEASURED, CAUTION, *(finding.message for finding in notes.findings)),
        outlook=OutlookLine(
            low_m=outlook.low_m,
            high_m=outlook.high_m,
            blocks_low=outlook.blocks_low,
            blocks_high=outlook.blocks_high,
        ),
        retest=RetestLine(
            minimal_detectable_change_m=retest.detectable_m, smallest_worthwhile_change_m=retest.worthwhile_m
        ),
        heights=tuple(height_lines(jumps.heights, jumps.height)),
        sides=tuple(sides),
        second_opinions=tuple(opinions),
    )
    return GapResult(
        gap=gap,
        findings=tuple(sorted(notes.findings)),
        one_rm_kg={key: maximum.one_rm_kg for key, maximum in loads.items()},
        tilts=tilted,
        strong_and_sure=strong_and_sure(deficit=strength.deficit, confidence=strength.confidence, rule=rule),
        weaker_legs=weaker,
        jumps=jumps,
        inputs=inputs,
        force=force,
        qualities=results,
        limits=shares,
        target_x=target_x,
        useful_tests=tuple(useful),
        benchmarks=benchmarks,
        outlook=outlook,
        retest=retest,
        maxima=maxima,
        take_off=athlete.take_off,
    )


def _contact(athlete: Athlete, benchmarks: Benchmarks, notes: Notebook) -> _Contact:
    basis = basis_of(athlete, benchmarks)
    if not is_off_run_up(athlete):
        on_platform = measured_push_off(athlete, benchmarks)
        if on_platform is not None:
            return _Contact(None, on_platform.distance_m, on_platform.described)
        share = basis.push_off.share_of_stature
        distance = Estimate(share * athlete.stature, basis.push_off.standard_error)
        described = f"push-off distance {share:.2f} x stature, a stand-in"
        notes.add(
            "note",
            "push-off-stand-in",
            f"a jump from a stand: force is taken over a push-off of {words_of(athlete).length(distance.value, 0)} "
            f"({share:.2f} x stature, ± {words_of(athlete).length(distance.se, 0)}), not measured",
        )
        return _Contact(None, distance, described)
    measured = measured_contact(athlete, benchmarks, notes)
    if measured is not None:
        return _Contact(measured.time_s, None, measured.described)
    stand_in = basis.contact
    notes.add(
        "warning",
        "no-contact-time",
        f"no contact time of the take-off: {stand_in.value:.2f} ± {stand_in.standard_error:.2f} s is assumed, so the "
        "forces are rough (their difference less so)",
        hint="film the take-off at 240 frames a second and add a contact-time test",
    )
    return _Contact(Estimate(stand_in.value, stand_in.standard_error), None, f"{stand_in.value:.2f} s, a stand-in")


def _inputs(athlete: Athlete, benchmarks: Benchmarks, jumps: Jumps, contact: _Contact) -> TakeOffInputs:
    return TakeOffInputs(
        body_mass_kg=Estimate(athlete.body_mass, benchmarks.errors.body_mass.standard_error_kg),
        rise_now_m=jumps.rise_now_m,
        rise_target_m=jumps.rise_target_m,
        heel_rise_se_m=jumps.heel_rise.se_m,
        now_from_touch=jumps.now_from_touch,
        target_from_touch=jumps.target_from_touch,
        contact_time_s=contact.time_s,
        push_off_m=contact.push_off_m,
    )


def _contact_time_s(inputs: TakeOffInputs) -> float:
    """The contact time, or the time that the push-off takes now (constant force over the distance)."""
    if inputs.contact_time_s is not None:
        return inputs.contact_time_s.value
    assert inputs.push_off_m is not None
    return take_off_over_push_off(
        rise_m=inputs.rise_now_m.value, body_mass_kg=inputs.body_mass_kg.value, push_off_m=inputs.push_off_m.value
    ).push_off_time_s


def _note_target(jumps: Jumps, words: Words, notes: Notebook) -> None:
    gain_m = jumps.rise_target_m.value - jumps.rise_now_m.value
    if abs(gain_m) <= jumps.resolution_m / 2:
        notes.add("note", "maintenance", "the target is the present jump: the block maintains", at=("target",))
    elif gain_m < 0:
        notes.add(
            "warning",
            "target-below-present",
            f"the target is {words.length(-gain_m)} below the present jump",
            hint="raise the target, or check the trials",
            at=("target",),
        )


def _note_outside(force: ForceGap, benchmarks: Benchmarks, notes: Notebook) -> None:
    axis = benchmarks.axis
    notes.add(
        "warning",
        "outside-curves",
        f"the target's mean ground force, {force.target.mean_ground_force_bw.value:.2f} body weights, is outside the "
        f"benchmark curves ({axis.low:g} to {axis.high:g} on their axis): needs are read at its end",
        hint="check contact time, body mass and target",
    )
