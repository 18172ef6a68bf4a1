"""A jump on a platform as a coach reads it: both heights and why they differ, then phases, forces, left and right."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import asdict
from statistics import fmean, stdev
from typing import Any

from planner.domain.benchmarks import Benchmarks
from planner.estimate.trials import middle
from planner.estimate.uncertainty import Estimate
from planner.estimate.words import Words, as_measured_by
from planner.force_platform.platform_jump import Dependence, PlatformJump, SideLoad
from planner.report.terminal import fit, table, wrap
from planner.units import UNITS, counted

METRIC = Words()
KIND_NAMES = {"countermovement": "countermovement jump", "squat": "squat jump", "drop": "drop jump"}
SHARE_DIGITS = 1
RECORD_ALONE = "± is one standard error of this record alone; how jumps scatter from one to the next comes on top."
COLLEGE_RANGE = "college athletes 0.21-0.70 men, 0.14-0.55 women: Sole et al. 2018, Sports 6:133"


def platform_json(jump: PlatformJump, name: str) -> dict[str, Any]:
    """Plain data: estimates as value and ``_se``; the trace itself is left out. ``name``: the record's."""
    data = {key: value for key, value in asdict(jump).items() if key not in ("trace_N", "trace_start_s")}
    difference = asdict(jump.difference_m) if jump.difference_m else None
    return {"record": name, **_flat({**data, "difference_m": difference})}


def _flat(data: dict[str, Any]) -> dict[str, Any]:
    """``{"value", "se"}`` becomes two keys, the second one ending in ``_se``."""
    flat: dict[str, Any] = {}
    for key, value in data.items():
        if isinstance(value, dict) and set(value) == {"value", "se"}:
            flat[key], flat[f"{key}_se"] = value["value"], value["se"]
        elif isinstance(value, dict):
            flat[key] = _flat(value)
        elif isinstance(value, (list, tuple)):
            flat[key] = [_flat(one) if isinstance(one, dict) else one for one in value]
        else:
            flat[key] = value
    return flat


def platform_text(jump: PlatformJump, name: str, words: Words = METRIC) -> str:
    """One jump of the record ``name``, at most 100 columns wide. ``words``: the units of who reads it."""
    title = f"{KIND_NAMES[jump.kind].upper()} {jump.number}: {name}, {jump.rate_Hz:g} samples a second"
    parts = [title, _heights(jump, words)]
    if jump.drop is not None:
        parts.append(_drop(jump, words))
    parts += [_phases(jump), "\n".join(wrap(line) for line in _figure_sentences(jump, words))]
    if jump.sides:
        parts.append(_sides(jump.sides))
    if jump.depends:
        parts.append("\n".join(["WHAT THE HEIGHTS DEPEND ON", *(_dependence(one, words) for one in jump.depends)]))
    return fit("\n\n".join(parts) + "\n")


def _length(estimate: Estimate, words: Words) -> str:
    unit = words.length_unit
    value, error = (metres / UNITS["length"][unit] for metres in (estimate.value, estimate.se))
    return f"{value:.1f} ± {_error(error)} {unit}"


def _error(error: float) -> str:
    """One decimal, or two where one would read 0.0: no error is printed as zero."""
    return f"{error:.1f}" if error >= 0.095 else f"{max(error, 0.01):.2f}"


def _heights(jump: PlatformJump, words: Words) -> str:
    crossing = f"{jump.flight_at_threshold_s:.4f} s between the crossings of {jump.threshold_N:.0f} N"
    flight = f"flight {jump.flight_s.value:.4f} s; {crossing}"
    rows = [["rise by flight time", _length(jump.rise_by_flight_m, words), flight]]
    if jump.rise_by_impulse_m is not None:
        speed = f"take-off at {jump.take_off_speed_m_s.value:.3f} ± {jump.take_off_speed_m_s.se:.3f} m/s"
        rows.insert(0, ["rise by impulse", _length(jump.rise_by_impulse_m, words), speed])
    width = max(len(row[0]) for row in rows)
    lines = [f"{row[0].ljust(width)}  {row[1]:>14}  {row[2]}" for row in rows]
    return "\n".join([*lines, *(wrap(line) for line in (*_which_height(jump, words), RECORD_ALONE))])


def _which_height(jump: PlatformJump, words: Words) -> list[str]:
    """Which height is believed and why, or why the two differ."""
    if jump.verdict.why:
        said = as_measured_by(jump.verdict.in_words, words)
        return [f"{said[0].upper()}{said[1:]}."]
    return [] if jump.difference_m is None else [_why_different(jump.difference_m, words)]


def _why_different(difference: Estimate, words: Words) -> str:
    amount = _length(Estimate(abs(difference.value), difference.se), words)
    if abs(difference.value) < 2 * difference.se:
        return f"The two differ by {amount}: no more than their errors."
    if difference.value > 0:
        return (
            f"Flight time reads {amount} higher, more than the errors of the record: landing with bent legs, or body "
            "weight taken too high. Always say which height you mean."
        )
    return (
        f"Impulse reads {amount} higher, more than the errors of the record: body weight taken too low, or movement "
        "before the onset. Always say which height you mean."
    )


def _drop(jump: PlatformJump, words: Words) -> str:
    assert jump.drop is not None
    drop = jump.drop
    fallen = "How far the body fell is not known."
    if drop.fallen_m is not None:
        fallen = f"The body fell {words.length(drop.fallen_m, 0)}, by its impulse; the box may say more."
    contact = f"{1000 * drop.contact_s.value:.0f} ± {_error(1000 * drop.contact_s.se)} ms"
    return wrap(
        f"Contact {contact}. Reactive strength index as height over contact "
        f"{drop.index_height_m_s:.2f} m/s; as flight over contact {drop.index_flight:.2f}: two figures, not to be "
        f"compared. {fallen}"
    )


def _phases(jump: PlatformJump) -> str:
    rows = [["phase", "from s", "to s", "ms", "mean N", "peak N", "net N s"]]
    for phase in jump.phases:
        times = [f"{phase.start_s:.3f}", f"{phase.end_s:.3f}", f"{1000 * phase.duration_s:.0f}"]
        forces = [f"{phase.mean_force_N:,.0f}", f"{phase.peak_force_N:,.0f}", f"{phase.net_impulse_Ns:+.1f}"]
        rows.append([phase.name, *times, *(["-"] * 3 if phase.name == "flight" else forces)])
    return table(rows)


def _figure_sentences(jump: PlatformJump, words: Words) -> list[str]:
    weight, mass = jump.body_weight_N, jump.body_mass_kg
    weighed = "all standing of the record" if jump.drop is None else "body mass as given or weighed after landing"
    if jump.weighing is not None:
        weighed = f"{jump.weighing.seconds:.2f} s of standing before, SD {jump.weighing.sd_N:.1f} N"
        if jump.weighed_after_s is not None:
            weighed += f", and {jump.weighed_after_s:.2f} s after"
        if jump.drop is None:
            weighed += ", with all other standing of the record"
    lines = [
        f"Body weight {weight.value:.1f} ± {weight.se:.1f} N ({words.load(mass.value)}): {weighed}. Zero offset "
        f"{jump.offset_N:+.1f} N, noise in flight {jump.noise_N:.1f} N.",
        f"Push: mean {jump.mean_push_force_N:,.0f} N ({jump.mean_push_force_N / weight.value:.2f} body weights), peak "
        f"{jump.peak_force_N:,.0f} N. Forces include body weight.",
    ]
    if jump.rise_by_impulse_m is not None:
        lines.insert(1, _reached_from(jump))
    if jump.peak_power_W is not None and jump.mean_push_power_W is not None:
        lines.append(
            f"Power of the push: peak {jump.peak_power_W:,.0f} W ({jump.peak_power_W / mass.value:.1f} W/kg), mean "
            f"{jump.mean_push_power_W:,.0f} W."
        )
    if jump.time_to_take_off_s is not None and jump.index_modified_m_s is not None:
        lines.append(
            f"Time to take-off {jump.time_to_take_off_s:.3f} s; modified reactive strength index (rise by impulse over "
            f"it) {jump.index_modified_m_s:.2f} m/s ({COLLEGE_RANGE})."
        )
    if jump.push_off_m is not None:
        depth = f"Depth {words.length(jump.depth_m, 0)}; push" if jump.depth_m is not None else "Push"
        lines.append(f"{depth}-off distance {words.length(jump.push_off_m, 0)}.")
    return lines


def _reached_from(jump: PlatformJump) -> str:
    """What the height by impulse rests on, and what would make it surer."""
    if jump.landing_used:
        return (
            "The take-off speed is reached from two sides: from the standing before, and back from the standing after "
            "through the landing and the flight."
        )
    if jump.weighed_after_s is not None:
        return "The take-off speed is reached from the standing before alone; the standing after only weighs."
    drift = f" (± {jump.drift_N_s.se:.1f} N a second allowed)" if jump.drift_N_s is not None else ""
    return (
        f"No quiet second after the landing was found: whether the zero line drifts is not known{drift}. Standing "
        "still for two seconds after the landing makes the height by impulse surer."
    )


def _sides(sides: Sequence[SideLoad]) -> str:
    rows = [["platform", "standing", "push", "landing", "peak of push"]]
    for side in sides:
        shares = (side.share_of_weighing, side.share_of_push, side.share_of_landing)
        rows.append([side.name, *map(_percent, shares), f"{side.peak_push_N:,.0f} N"])
    caution = "A difference between the legs in one jump proves nothing: it has to recur over several jumps."
    return f"{table(rows)}\n{wrap(caution)}"


def _percent(share: float | None) -> str:
    return "-" if share is None else f"{100 * share:.{SHARE_DIGITS}f} %"


def _dependence(one: Dependence, words: Words) -> str:
    said = "; ".join(
        f"{choice}: {words.length(height)}" for choice, height in zip(one.choices, one.heights_m, strict=True)
    )
    return wrap(f"{one.what}: {said}.", "  ")


def picture_lines(jump: PlatformJump, words: Words = METRIC) -> list[str]:
    """The sentences under the force trace."""
    lines = [f"{KIND_NAMES[jump.kind].capitalize()} {jump.number}, {jump.rate_Hz:g} samples a second."]
    heights = f"Rise by flight time {_length(jump.rise_by_flight_m, words)}."
    if jump.rise_by_impulse_m is not None:
        heights = f"Rise by impulse {_length(jump.rise_by_impulse_m, words)}. {heights}"
    lines += [f"{heights} {RECORD_ALONE}", *_which_height(jump, words)]
    if jump.drop is not None:
        lines.append(" ".join(_drop(jump, words).split()))
    lines += _figure_sentences(jump, words)
    for side in jump.sides:
        lines.append(f"Platform {side.name}: {_percent(side.share_of_push)} of the push.")
    return lines


def trials_text(jumps: Sequence[PlatformJump], benchmarks: Benchmarks, words: Words = METRIC) -> str:
    """Several jumps of one kind together: the height that the gap takes from them, and every one."""
    told = [jump for jump in jumps if jump.verdict.believed != "neither"]
    if not told:
        return wrap("None of these jumps has a height that is believed.") + "\n"
    impulses = [jump.rise_by_impulse_m for jump in told if jump.rise_by_impulse_m and jump.verdict.impulse]
    flights = [jump.rise_by_flight_m for jump in told if jump.verdict.flight]
    by_impulse = len(impulses) >= len(flights)
    heights, method = (impulses, "impulse") if by_impulse else (flights, "flight time")
    each = ", ".join(words.length_number(one.value) for one in heights)
    lines = [
        f"{counted(len(heights), 'jump')} by {method}: {each} {words.length_unit}; all of them count: "
        f"{words.length(middle([one.value for one in heights]))}."
    ]
    shares = [jump.sides[0].share_of_push for jump in jumps if jump.sides]
    if len(shares) >= benchmarks.platform.least_jumps_for_sides:
        mean, se = fmean(shares), stdev(shares) / len(shares) ** 0.5
        beyond = "beyond" if abs(mean - 0.5) > benchmarks.retest.multiple * se else "within"
        name = jumps[0].sides[0].name
        lines.append(
            f"Platform '{name}' carries {100 * mean:.1f} ± {_error(100 * se)} % of the push: the difference is "
            f"{beyond} its error."
        )
    return "\n".join(wrap(line) for line in lines) + "\n"
