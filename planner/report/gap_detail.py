"""The gap's second page: other contact times, the sources of error, and where the curves come from."""

from __future__ import annotations

from dataclasses import replace

from planner.domain.athlete import Athlete
from planner.domain.terms import QUALITY_NAMES, legs_of
from planner.estimate.estimate_gap import GapResult
from planner.estimate.force_gap import TakeOffInputs, force_gap, take_off_at
from planner.estimate.take_off import contact_time_for_force_s, half_sine_peak_N
from planner.estimate.uncertainty import Estimate
from planner.estimate.words import Words, words_of
from planner.report.gap_tests import deficits, heights, kinds, lifts, opinions, other_legs, sides
from planner.report.terminal import wrap
from planner.report.test_worth_text import worth_lines
from planner.units import as_read_by

SHORTEST_m_or_s = 0.05  # leaves out examples with pushes and contacts shorter than anyone's; no source needed


def detail(result: GapResult, athlete: Athlete) -> str:
    """What ``jumpblock gap --full`` adds."""
    sections = [
        ("THE SAME TAKE-OFF IN OTHER WAYS", _what_if(result, words_of(athlete))),
        ("WHERE THE ± COMES FROM", _errors(result, words_of(athlete))),
        ("HOW THE TESTS WERE READ", kinds(result, athlete)),
        ("EVERY HEIGHT, EACH BY ITS OWN METHOD", heights(result, athlete)),
        ("SHORT OR OVER AND EMPHASIS, WITH THEIR ERRORS", deficits(result)),
        ("WHAT MORE TESTING IS WORTH, CHEAPEST FIRST", worth_lines(result)),
        ("WHAT EACH TEST SUPPORTS", _supported(result, athlete)),
        ("LIFTS BY BOTH FORMULAS", lifts(result, athlete)),
        ("LEFT AND RIGHT", sides(result, athlete)),
        ("SECOND OPINIONS, WHICH CHANGE NOTHING", opinions(result)),
        ("SOURCES OF THE FIGURES", _sources(result, athlete)),
    ]
    sections = [(title, lines) for title, lines in sections if lines]
    return "\n\n".join("\n".join([title, *(wrap(line, "  ") for line in lines)]) for title, lines in sections)


def _what_if(result: GapResult, words: Words) -> list[str]:
    inputs = result.inputs
    if inputs.contact_time_s is None:
        return _push_off_what_if(result, inputs, words)
    contact_s = inputs.contact_time_s.value
    lines = []
    for step_s in result.benchmarks.what_if.contact_steps_s:
        time_s = contact_s + step_s
        if time_s >= SHORTEST_m_or_s:
            at = replace(inputs, contact_time_s=Estimate(time_s, 0.0))
            lines.append(f"target in {time_s:.3f} s: {_force(at, at.rise_target_m.value, words)}")
    now_N = result.force.now.mean_ground_force_N.value
    same_force_s = contact_time_for_force_s(
        rise_m=inputs.rise_target_m.value,
        body_mass_kg=inputs.body_mass_kg.value,
        mean_ground_force_N=now_N,
        touch_down_speed_m_s=inputs.touch_down_speed_m_s,
    )
    lines.append(
        f"With the present force ({now_N:,.0f} N) the target would take {same_force_s:.3f} s on the ground: the other "
        "way to the same height."
    )
    fall_m_s = result.benchmarks.what_if.touch_down_speed_m_s
    falling = replace(inputs, touch_down_speed_m_s=fall_m_s)
    lines.append(
        f"If the body still falls at {-fall_m_s:g} m/s at touch-down (an example, not measured): now "
        f"{_force(falling, falling.rise_now_m.value, words)}; "
        f"target {_force(falling, falling.rise_target_m.value, words)}; "
        f"the gap stays {force_gap(falling).gap.mean_ground_force_N.value:,.0f} N."
    )
    lines += other_legs(result, words)
    target_N = result.force.target.mean_ground_force_N.value
    lines.append(
        f"Peak force at the target: at least {half_sine_peak_N(mean_force_N=target_N):,.0f} N, were the force a half "
        "sine; a plant with an impact peak exceeds it."
    )
    return lines


def _push_off_what_if(result: GapResult, inputs: TakeOffInputs, words: Words) -> list[str]:
    assert inputs.push_off_m is not None
    lines = []
    for step_m in result.benchmarks.what_if.push_off_steps_m:
        distance_m = inputs.push_off_m.value + step_m
        if distance_m >= SHORTEST_m_or_s:
            at = replace(inputs, push_off_m=Estimate(distance_m, 0.0))
            lines.append(
                f"target over a push-off of {words.length(distance_m, 0)}: {_force(at, at.rise_target_m.value, words)}"
            )
    return lines + other_legs(result, words)


def _force(inputs: TakeOffInputs, rise_m: float, words: Words) -> str:
    take_off = take_off_at(inputs, rise_m)
    return f"{words.force(take_off.mean_ground_force_N)}, {take_off.mean_ground_force_bw:.2f} body weights"


def _errors(result: GapResult, words: Words) -> list[str]:
    inputs = result.inputs
    parts = [f"present rise ± {words.length(inputs.rise_now_m.se)} from the test itself"]
    if inputs.now_from_touch:
        parts.append(f"heel rise ± {words.length(inputs.heel_rise_se_m)}")
    parts.append(f"body mass ± {words.load(inputs.body_mass_kg.se)}")
    if inputs.contact_time_s is not None:
        parts.append(f"contact ± {inputs.contact_time_s.se * 1000:.0f} ms")
        parts.append(f"speed at touch-down ± {inputs.touch_down_se_m_s:.2f} m/s")
    if inputs.push_off_m is not None:
        parts.append(f"push-off ± {words.length(inputs.push_off_m.se, 0)}")
    now, target, gap = (line.mean_ground_force_N for line in (result.force.now, result.force.target, result.force.gap))
    naive_N = (now.se**2 + target.se**2) ** 0.5
    return [
        f"{'; '.join(parts)}.",
        f"Now ± {now.se:.0f} N, target ± {target.se:.0f} N, gap ± {gap.se:.0f} N: errors that both share cancel in the "
        f"gap (if they were independent, it would read ± {naive_N:.0f} N).",
        "The gap is inside the noise."
        if result.gap.inside_noise
        else f"The gap is {abs(gap.value) / gap.se:.1f} standard errors: outside the noise."
        if gap.se
        else "The gap has no error of its own.",
    ]


def _supported(result: GapResult, athlete: Athlete) -> list[str]:
    shift = result.benchmarks.take_offs[legs_of(athlete.take_off)].axis_shift
    target_bw = result.force_on_curves.target.mean_ground_force_bw.value
    lines = [f"The target's mean ground force is {target_bw:.2f} body weights. Usually goes with it, by test:"]
    for verdict in result.qualities.values():
        for one in verdict.counted:
            lines.append(
                f"{QUALITY_NAMES[verdict.quality]}: {one.supported_x - shift:.2f} body weights ({one.reading.source})"
            )
    return lines if len(lines) > 1 else ["No test yet."]


def _sources(result: GapResult, athlete: Athlete) -> list[str]:
    benchmarks = result.benchmarks
    basis = benchmarks.take_offs[legs_of(athlete.take_off)]
    lines = [
        f"Benchmarks {benchmarks.id}: {benchmarks.source}.",
        f"Axis: {basis.axis_source}; read at x = {result.target_x:.2f}.",
        f"Heel rise: {basis.heel_rise.source}.",
    ]
    for verdict in result.qualities.values():
        tests = [one.reading.test for one in verdict.counted] or [verdict.first_test]
        for test in tests:
            curve = test.curves[legs_of(athlete.take_off)]
            cap = f", at most {curve.cap:g}" if curve.cap is not None else ""
            plus = f"{curve.plus:g} + " if curve.plus else ""
            at = f"(x - {curve.at:g})" if curve.at else "x"
            base = f"{curve.base:g} + " if curve.base else ""
            unit = test.need_in.replace("-", " ")
            name = as_read_by(test.name, athlete.print_as.length, athlete.print_as.mass)
            lines.append(f"{name}: need {plus}[{base}{curve.slope:g} {at}{cap}] {unit}; {test.source}.")
    return lines
