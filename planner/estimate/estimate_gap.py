"""From an athlete's tests to force gap, qualities and emphasis: the whole estimate, in one visible order."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from planner.domain.athlete import Athlete
from planner.domain.benchmarks import Benchmarks
from planner.domain.findings import Finding, UserError
from planner.domain.gap_record import Gap, OutlookLine, RetestLine, SecondOpinion, SideDifference
from planner.domain.terms import Leg, Quality, TakeOff
from planner.estimate.athlete_emphasis import AthleteEmphasis, emphasis_of
from planner.estimate.contact import measured_contact
from planner.estimate.contact_or_push_off import TakenContact, taken_contact
from planner.estimate.detectable_change import compare, retest_of
from planner.estimate.disagreements import note_disagreements
from planner.estimate.dropped import dropped_words
from planner.estimate.extra_set_leg import legs_with_extra_sets
from planner.estimate.force_gap import ForceGap, TakeOffInputs, force_gap
from planner.estimate.gap_lines import height_lines, quality_lines, take_off_line
from planner.estimate.lifts import LiftKey, Maxima, lift_maxima
from planner.estimate.notebook import Locate, Notebook, nowhere
from planner.estimate.outlook import outlook_of, outlook_words, share_after
from planner.estimate.present_jump import Jumps, jumps_of
from planner.estimate.qualities import Limiters, QualityResult, axis_x, judge_qualities, limits
from planner.estimate.second_opinions import second_opinions
from planner.estimate.sides import side_differences
from planner.estimate.story import CAUTION, NOT_MEASURED, story
from planner.estimate.take_off import take_off_over_push_off
from planner.estimate.target_notes import note_outside, note_target
from planner.estimate.touch_down import touch_down_line, with_fall
from planner.estimate.trials import note_days_alike
from planner.estimate.uncertainty import Estimate, inside_noise
from planner.estimate.useful_tests import useful_tests
from planner.estimate.words import words_of


@dataclass(frozen=True)
class GapResult:
    """The estimate and what it rests on. ``gap`` is what the block keeps; the rest is for planner and report."""

    gap: Gap
    findings: tuple[Finding, ...]
    one_rm_kg: Mapping[LiftKey, Estimate]
    emphasis: AthleteEmphasis
    dropped: tuple[Finding, ...]  # of tests, or trials of them, that are not believed
    weaker_legs: Mapping[Quality, Leg]  # that get an extra set, where the athlete's file asks for it
    jumps: Jumps
    inputs: TakeOffInputs
    force: ForceGap
    force_on_curves: ForceGap
    qualities: Mapping[Quality, QualityResult]
    target_x: float
    useful_tests: tuple[str, ...]
    benchmarks: Benchmarks
    retest: RetestLine
    maxima: Maxima
    take_off: TakeOff


@dataclass(frozen=True)
class _TakeOffs:
    """The two take-offs and what they rest on. ``on_curves``: without a fall at touch-down, as the curves are drawn."""

    jumps: Jumps
    contact: TakenContact
    inputs: TakeOffInputs
    force: ForceGap
    on_curves: ForceGap


@dataclass(frozen=True)
class _Verdicts:
    """The qualities as judged at the target, where the target lies on the curves' axis, and what follows."""

    maxima: Maxima
    target_x: float
    results: Mapping[Quality, QualityResult]
    limiters: Limiters
    emphasis: AthleteEmphasis


@dataclass(frozen=True)
class _Prospects:
    """What follows for the coach: what a block may bring, what a retest shows, which leg and which test come next."""

    outlook: OutlookLine
    retest: RetestLine
    useful_tests: tuple[str, ...]
    sides: tuple[SideDifference, ...]
    weaker_legs: Mapping[Quality, Leg]
    opinions: tuple[SecondOpinion, ...]


def estimate_gap(
    athlete: Athlete,
    benchmarks: Benchmarks,
    *,
    body_mass_shares: Mapping[str, float] | None = None,
    lift_names: Mapping[str, str] | None = None,
    locate: Locate = nowhere,
) -> GapResult:
    """Force gap, qualities, emphasis and one-repetition maxima of one athlete.

    ``body_mass_shares``: share of body mass lifted along, by movement, from the library; ``one_rm_kg`` uses it, so that
    a percentage of it means what the library means. ``lift_names``: by movement. ``locate``: line of a
    value in the athlete's file.

    Raises UserError with every finding when no gap can be computed: no test of the target jump, a target within
    reach, a flight time off a run-up.
    """
    notes = Notebook(locate)
    note_days_alike(athlete, benchmarks, notes)
    take_offs = _take_offs(athlete, benchmarks, notes)
    verdicts = _verdicts(athlete, benchmarks, take_offs.on_curves, notes, lift_names)
    prospects = _prospects(athlete, benchmarks, take_offs.jumps, verdicts, notes)
    # The loads on the cards use the library's share of body mass, the readings use the benchmarks'.
    loads = lift_maxima(athlete, benchmarks, Notebook(), body_mass_shares)
    return GapResult(
        gap=_gap(athlete, benchmarks, take_offs, verdicts, prospects, notes),
        findings=tuple(sorted(notes.findings)),
        one_rm_kg={key: maximum.one_rm_kg for key, maximum in loads.items()},
        emphasis=verdicts.emphasis,
        dropped=tuple(sorted(finding for found in notes.dropped.values() for finding in found)),
        weaker_legs=prospects.weaker_legs,
        jumps=take_offs.jumps,
        inputs=take_offs.inputs,
        force=take_offs.force,
        force_on_curves=take_offs.on_curves,
        qualities=verdicts.results,
        target_x=verdicts.target_x,
        useful_tests=prospects.useful_tests,
        benchmarks=benchmarks,
        retest=prospects.retest,
        maxima=verdicts.maxima,
        take_off=athlete.take_off,
    )


def _take_offs(athlete: Athlete, benchmarks: Benchmarks, notes: Notebook) -> _TakeOffs:
    jumps = jumps_of(athlete, benchmarks, notes)
    if jumps is None:  # the tests that are not believed are said at once
        measured_contact(athlete, benchmarks, notes)
        lift_maxima(athlete, benchmarks, notes)
        raise UserError(sorted(notes.findings))
    contact = taken_contact(athlete, benchmarks, notes)
    on_curves = _inputs(athlete, benchmarks, jumps, contact)
    inputs = with_fall(on_curves, contact.fall)
    words = words_of(athlete)
    note_target(jumps, words, notes)
    apart = [height for height in jumps.heights if height not in jumps.days[1:]]
    compare(jumps.height, apart, jumps.heel_rise.se_m, benchmarks.retest, notes, words)
    return _TakeOffs(jumps, contact, inputs, force_gap(inputs), force_gap(on_curves))


def _verdicts(
    athlete: Athlete, benchmarks: Benchmarks, force: ForceGap, notes: Notebook, lift_names: Mapping[str, str] | None
) -> _Verdicts:
    maxima = lift_maxima(athlete, benchmarks, notes, names=lift_names)
    now_x, _ = axis_x(force.now.mean_ground_force_bw.value, athlete, benchmarks)
    target_x, outside = axis_x(force.target.mean_ground_force_bw.value, athlete, benchmarks)
    if outside:
        note_outside(force, benchmarks, notes)
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
    limiters = limits(
        results,
        now_x=now_x,
        target_x=target_x,
        least_confidence=benchmarks.confidence.least_for_shares,
        dead_zone=rule.dead_zone,
    )
    return _Verdicts(maxima, target_x, results, limiters, emphasis_of(athlete, results, rule))


def _prospects(
    athlete: Athlete, benchmarks: Benchmarks, jumps: Jumps, verdicts: _Verdicts, notes: Notebook
) -> _Prospects:
    sides = side_differences(athlete, benchmarks, verdicts.maxima)
    return _Prospects(
        outlook=outlook_of(
            rise_now_m=jumps.rise_now_m.value,
            gain_wanted_m=jumps.gain_wanted_m,
            rule=benchmarks.outlook,
            share=share_after(benchmarks.outlook, athlete.training_age_years),
        ),
        retest=retest_of(jumps.days, benchmarks.retest),
        useful_tests=tuple(useful_tests(verdicts.results, benchmarks, athlete)),
        sides=tuple(sides),
        weaker_legs=legs_with_extra_sets(athlete, sides, benchmarks.weaker_leg, notes),
        opinions=tuple(second_opinions(athlete, benchmarks, jumps.heights, notes)),
    )


def _gap(
    athlete: Athlete,
    benchmarks: Benchmarks,
    take_offs: _TakeOffs,
    verdicts: _Verdicts,
    prospects: _Prospects,
    notes: Notebook,
) -> Gap:
    """What the block keeps: numbers, qualities, story and notes."""
    jumps, inputs, force, outlook = take_offs.jumps, take_offs.inputs, take_offs.force, prospects.outlook
    noise = inside_noise(force.gap.mean_ground_force_N, noise_multiple=benchmarks.confidence.noise_multiple)
    touch_down = touch_down_line(inputs, take_offs.contact.fall)
    sentences = story(
        athlete=athlete,
        jumps=jumps,
        force=force,
        touch_down=touch_down,
        inside_noise=noise,
        results=verdicts.results,
        limits=verdicts.limiters,
        benchmarks=benchmarks,
        outlook=outlook_words(
            outlook,
            jumps.gain_wanted_m,
            benchmarks.outlook,
            words_of(athlete),
            training_years=athlete.training_age_years,
        ),
        dropped=dropped_words(athlete, benchmarks, notes.dropped),
    )
    return Gap(
        method=jumps.method,
        contact_time_s=_contact_time_s(inputs),
        contact_time_from=take_offs.contact.described,
        push_off_m=inputs.push_off_m.value if inputs.push_off_m else None,
        body_mass_kg=athlete.body_mass,
        inside_noise=noise,
        now=take_off_line(force.now),
        target=take_off_line(force.target),
        gap=take_off_line(force.gap),
        qualities=tuple(
            line for result in verdicts.results.values() for line in quality_lines(result, verdicts.emphasis)
        ),
        strength_share=verdicts.limiters.strength_share,
        speed_share=verdicts.limiters.speed_share,
        next_test=prospects.useful_tests[0] if prospects.useful_tests else None,
        story=tuple(sentences),
        notes=(NOT_MEASURED, CAUTION, *(finding.message for finding in notes.findings)),
        outlook=outlook,
        retest=prospects.retest,
        touch_down=touch_down,
        heights=tuple(height_lines(jumps.heights, jumps.height)),
        sides=prospects.sides,
        second_opinions=prospects.opinions,
    )


def _inputs(athlete: Athlete, benchmarks: Benchmarks, jumps: Jumps, contact: TakenContact) -> TakeOffInputs:
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
    """The contact, or the time the push-off takes now (constant force over the distance)."""
    if inputs.contact_time_s is not None:
        return inputs.contact_time_s.value
    assert inputs.push_off_m is not None
    return take_off_over_push_off(
        rise_m=inputs.rise_now_m.value, body_mass_kg=inputs.body_mass_kg.value, push_off_m=inputs.push_off_m.value
    ).push_off_time_s
