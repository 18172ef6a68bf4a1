"""The gap in sentences: who, from where to where, what it takes, what the tests say, and what was not measured."""

from __future__ import annotations

from collections.abc import Mapping

from planner.domain.athlete import Athlete
from planner.domain.benchmarks import Benchmarks
from planner.domain.emphasis_rule import ConfidenceRule
from planner.domain.gap_record import TouchDownLine
from planner.domain.terms import QUALITY_NAMES, Quality, leg_of
from planner.estimate.force_gap import ForceGap
from planner.estimate.present_jump import Jumps, is_off_run_up
from planner.estimate.qualities import Limiters, QualityResult
from planner.estimate.touch_down import touch_down_words
from planner.estimate.words import Words, words_of
from planner.units import POUND_FORCE_N

NOT_MEASURED = "Technique and approach: not measured."
SHOWN_SHORT = 0.005  # a deficit that the page rounds to 1 % or more is not called enough
CAUTION = "Training suggestions, not medical advice. Pain above 5 of 10, sharp, or worse next morning: stop and refer."


def take_off_words(athlete: Athlete) -> str:
    leg = leg_of(athlete.take_off)
    legs = f"off the {leg} leg" if leg else "off both legs"
    return f"{legs}, {f'{athlete.approach.steps}-step run-up' if is_off_run_up(athlete) else 'from a stand'}"


def height_words(rise_m: float, touch_m: float | None, words: Words) -> str:
    rise = words.length(rise_m)
    return f"a rise of {rise}" if touch_m is None else f"a touch of {words.mark(touch_m)} (rise {rise})"


def story(
    *,
    athlete: Athlete,
    jumps: Jumps,
    force: ForceGap,
    touch_down: TouchDownLine | None,
    inside_noise: bool,
    results: Mapping[Quality, QualityResult],
    limits: Limiters,
    benchmarks: Benchmarks,
    outlook: str,
    dropped: str = "",
) -> list[str]:
    """Five to eight sentences, the page a coach reads first."""
    lines = [_who(athlete, jumps), _what_it_takes(force, words_of(athlete))]
    if touch_down is not None:
        lines.append(touch_down_words(touch_down))
    if inside_noise:
        lines.append(
            "The gap is inside the noise of this test: the present jump may already be there, or not. Jump again on a "
            "second day before acting on it."
        )
    lines.append(_tests_say(results, benchmarks.emphasis.dead_zone, benchmarks.confidence))
    if dropped:
        lines.append(dropped)
    shares = _limited_by(limits)
    if shares:
        lines.append(shares)
    lines.append(outlook)
    lines.append(NOT_MEASURED)
    return lines


def _who(athlete: Athlete, jumps: Jumps) -> str:
    words = words_of(athlete)
    now = height_words(jumps.rise_now_m.value, jumps.touch_now_m, words)
    target = height_words(jumps.rise_target_m.value, athlete.target.touch, words)
    gain_m = jumps.gain_wanted_m
    if abs(gain_m) <= jumps.resolution_m / 2:
        change = "the same: a block that maintains"
    elif gain_m < 0:
        change = f"{words.length(-gain_m)} below the present jump"
    else:
        change = f"{words.length(gain_m)} up"
    return f"{athlete.name}, {take_off_words(athlete)}: now {now}; target {target}, {change}."


def _what_it_takes(force: ForceGap, words: Words) -> str:
    now, gap_N, gap_m = force.now, force.gap.mean_ground_force_N, force.gap.rise_m
    now_bw, target_bw = now.mean_ground_force_bw.value, force.target.mean_ground_force_bw.value
    more = "more" if gap_N.value >= 0 else "less"
    pounds = f" ({abs(gap_N.value) / POUND_FORCE_N:.0f} lbf)" if words.mass_unit == "lb" else ""
    return (
        f"It takes {abs(gap_N.value):.0f} ± {gap_N.se:.0f} N{pounds} {more} "
        f"mean ground force: {now_bw:.2f} body weights now, {target_bw:.2f} at the target. "
        f"{_percent(gap_N.value, now.mean_ground_force_N.value)} of force is "
        f"{_percent(gap_m.value, now.rise_m.value)} of height."
    )


def _percent(part: float, whole: float) -> str:
    return f"{100.0 * part / whole:+.1f} %"


def _tests_say(results: Mapping[Quality, QualityResult], dead_zone: float, sure: ConfidenceRule) -> str:
    short, slightly, enough, plenty, unknown = [], [], [], [], []
    for result in results.values():
        name = QUALITY_NAMES[result.quality]
        if not result.tested:
            unknown.append(name)
        elif result.push >= dead_zone:
            short.append(f"{name} by {100 * result.deficit:.0f} % ({confidence_words(result.confidence, sure)})")
        elif result.push <= -dead_zone:
            plenty.append(name)
        elif result.deficit >= SHOWN_SHORT:
            slightly.append(f"{name} by {100 * result.deficit:.0f} %")
        else:
            enough.append(name)
    parts = [
        f"{label} {_join(names)}"
        for label, names in (
            ("short of", short),
            ("short, but not enough to act on, of", slightly),
            ("enough", enough),
            ("more than enough", plenty),
            ("untested:", unknown),
        )
        if names
    ]
    return f"For this target the tests say: {'; '.join(parts)}."


def confidence_words(confidence: float, rule: ConfidenceRule) -> str:
    """Words for a confidence of 0 to 1, so that one jump or squat test reads as moderate confidence."""
    if confidence >= rule.fairly_sure_from:
        return "good confidence"
    return "moderate confidence" if confidence >= rule.half_sure_from else "low confidence"


FAST = QUALITY_NAMES["speed-exposure"]


def _limited_by(limits: Limiters) -> str:
    strength, speed = limits.strength_share, limits.speed_share
    if strength is None and speed is None:
        return ""
    if not strength and not speed:
        tested = "The tests taken" if strength is None or speed is None else "The tests"
        return f"{tested} support the target: look at approach and plant."
    weakest = QUALITY_NAMES[limits.weakest] if limits.weakest else "strength"
    if strength and speed and f"{100 * strength:.0f}" == f"{100 * speed:.0f}" == "50":
        return f"As far as the tests tell, {weakest} and {FAST} hold the jump back alike."
    rest = max(0.0, 1.0 - (strength or 0.0) - (speed or 0.0))
    named = (
        (strength or 0.0, f"limited by {weakest}"),
        (speed or 0.0, f"limited by {FAST}"),
        (rest, _rest(strength, speed)),
    )
    parts = [(f"{100 * share:.0f} % " if share < 0.995 else "") + name for share, name in named if share > 0.005]
    return f"As far as the tests tell, the way to the target is {_join(parts)}."


def _rest(strength: float | None, speed: float | None) -> str:
    """What the rest is: the approach if both kinds were tested, unknown if one was not or is hardly believed."""
    if strength is None:
        return "not told without a strength test that can be believed"
    return "not told without a drop jump" if speed is None else "neither, so look at the approach"


def _join(names: list[str]) -> str:
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"
