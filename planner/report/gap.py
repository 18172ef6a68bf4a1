"""The gap as a coach reads it: the story in a minute, then the figures, the qualities and what follows from them."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from planner.domain.athlete import Athlete
from planner.domain.block import Gap, GapLine, QualityLine
from planner.domain.terms import LIFT_QUALITIES, Quality
from planner.estimate.emphasis import emphasised_sets
from planner.estimate.gap import GapResult
from planner.estimate.qualities import QualityResult, most_useful_tests
from planner.estimate.story import CAUTION, NOT_MEASURED, QUALITY_NAMES
from planner.report.gap_detail import detail
from planner.report.layout import table, wrap
from planner.units import POUND_FORCE_N, UNITS, format_length


def gap_json(gap: Gap) -> dict[str, Any]:
    """The gap as plain data; unused keys are null."""
    return gap.model_dump(mode="json")


def gap_text(
    result: GapResult, athlete: Athlete, *, full: bool = False, base_sets: Mapping[Quality, float] | None = None
) -> str:
    """The gap as text of at most 100 columns.

    ``full`` adds the same take-off at other contact times, what is uncertain, and where the curves come from.
    ``base_sets`` are a week's working sets of the template per quality; given, the chain ends in sets.
    """
    parts = [
        "\n".join(["FORCE GAP", *(wrap(sentence) for sentence in result.gap.story)]),
        _figures(result, athlete),
        _qualities(result),
        _chain(result, base_sets),
        _closing(result, athlete),
    ]
    if full:
        parts.append(detail(result, athlete))
    return "\n\n".join(parts) + "\n"


def _figures(result: GapResult, athlete: Athlete) -> str:
    gap, unit = result.gap, athlete.print_as.length
    rows = [["", "now", "target", "gap"]]
    if result.jumps.touch_now_m is not None and athlete.target.touch is not None:
        now_m, target_m = result.jumps.touch_now_m, athlete.target.touch
        touches = [
            format_length(value, "in", 1) if unit == "in" else format_length(value, "m", 3)
            for value in (now_m, target_m)
        ]
        rows.append(["touch", *touches, format_length(target_m - now_m, unit, 1)])
    rows.append(_row("rise", gap, "rise_m", 1.0 / UNITS["length"][unit], unit, 1, percent=True))
    rows.append(_row("take-off speed", gap, "take_off_speed_m_s", 1.0, "m/s", 2))
    rows.append(_row("net impulse", gap, "net_impulse_Ns", 1.0, "N s", 0))
    rows.append(_row("mean net force", gap, "mean_net_force_N", 1.0, "N", 0))
    rows.append(_row("mean GROUND force", gap, "mean_ground_force_N", 1.0, "N", 0, percent=True))
    rows.append(_row("", gap, "mean_ground_force_N", 1.0 / POUND_FORCE_N, "lbf", 0))
    rows.append(_row("", gap, "mean_ground_force_bw", 1.0, "body weights", 2))
    return f"{table(rows)}\n{wrap(_basis(result))}"


def _row(name: str, gap: Gap, key: str, factor: float, unit: str, digits: int, percent: bool = False) -> list[str]:
    def cell(line: GapLine) -> str:
        value, error = getattr(line, key) * factor, getattr(line, f"{key}_se") * factor
        return f"{value:,.{digits}f} ± {error:,.{digits}f} {unit}"

    change = cell(gap.gap)
    if percent:
        change += f"  ({100 * getattr(gap.gap, key) / getattr(gap.now, key):+.1f} %)"
    return [name, cell(gap.now), cell(gap.target), change]


def _basis(result: GapResult) -> str:
    gap, heel = result.gap, result.jumps.heel_rise
    if gap.push_off_m is None:
        time = f"Contact {gap.contact_time_s:.3f} s ({gap.contact_time_from}); no downward speed at touch-down assumed."
    else:
        time = f"From a stand: {gap.contact_time_from}, {gap.push_off_m * 100:.0f} cm."
    source = "measured on tip-toe" if heel.measured else "a stand-in"
    off = f" Heel rise off the touch: {heel.value_m * 100:.0f} cm ({source})." if result.jumps.now_from_touch else ""
    return (
        f"Height by {gap.method}; mean of the best two trials counts. {time}{off} Net force is what is left over body "
        "weight; ground force is what the foot presses with. ± is one standard error; errors shared by now and target "
        "count once in the gap."
    )


def _qualities(result: GapResult) -> str:
    counted = {
        (verdict.quality, judgement.side, judgement.reading.source)
        for verdict in result.qualities.values()
        for judgement in verdict.counted
    }
    rows = [["quality", "side", "have", "need", "deficit", "confidence", "emphasis"]]
    seen: set[Quality] = set()
    for line in result.gap.qualities:
        name = QUALITY_NAMES[line.quality] if line.quality not in seen else ""
        first, counts = line.quality not in seen, (line.quality, line.side, line.source) in counted
        seen.add(line.quality)
        tilt = f"x {line.emphasis:.2f}" if first else ""
        rows.append([name, line.side, *_quality_cells(line, counts or line.status == "untested"), tilt])
    legend = (
        "Deficit: how far the test is below what such a take-off usually goes with; negative is a surplus. "
        "Confidence: how far the test is believed, 0 to 1. Emphasis: factor on the template's share. In brackets: "
        "shown, not counted."
    )
    return f"{table(rows)}\n{wrap(legend)}"


def _quality_cells(line: QualityLine, counts: bool) -> list[str]:
    digits = 2 if line.unit == "m/s" else 0
    need = f"{line.need:,.{digits}f} {line.unit}" if line.need is not None else "-"
    if line.have is None:
        return ["untested", need, "-", "0"]
    have = f"{line.have:,.{digits}f} {line.unit}"
    cells = [have, need, f"{100 * line.deficit:+.1f} %", f"{line.confidence:.2f}"]
    return cells if counts else [f"({cell})" for cell in cells]


def _chain(result: GapResult, base_sets: Mapping[Quality, float] | None) -> str:
    lines = ["FROM TEST TO EMPHASIS"]
    sets = emphasised_sets(base_sets, result.tilts) if base_sets else None
    for quality, verdict in result.qualities.items():
        link = _link(result.tilts[quality], verdict) + _sets(quality, base_sets, sets)
        lines.append(wrap(f"{QUALITY_NAMES[quality]}: {link}", "  "))
    if result.strong_and_sure:
        lines.append(wrap("Strong enough, and sure of it: strength at maintenance from the intensify phase on.", "  "))
    fixed = (
        "Gym time is fixed: the four strength shares are scaled back to the template's sum; speed moves sprints and "
        "high-tier contacts."
    )
    return "\n".join([*lines, wrap(fixed, "  ")])


def _link(tilt: float, verdict: QualityResult) -> str:
    if not verdict.tested:
        return "untested -> share stays"
    tests = " and ".join(judgement.reading.label for judgement in verdict.counted)
    word = "short" if verdict.deficit >= 0 else "over"
    push = f"{abs(verdict.deficit) * 100:.1f} % {word} x confidence {verdict.confidence:.2f}"
    share = "share stays (too small to act on)" if tilt == 1.0 else f"share x {tilt:.2f}"
    return f"{tests} -> {push} -> {share}"


def _sets(quality: Quality, base_sets: Mapping[Quality, float] | None, sets: Mapping[Quality, float] | None) -> str:
    if base_sets is None or sets is None or quality not in LIFT_QUALITIES:
        return ""
    return f" -> {base_sets.get(quality, 0.0):.1f} to {sets[quality]:.1f} sets a week"


def _closing(result: GapResult, athlete: Athlete) -> str:
    if result.useful_tests:
        lines = [f"Most useful next test: {result.useful_tests[0]}. {_why_useful(result)}"]
    else:
        lines = ["Every quality has its best test: next comes the retest at the end of the block."]
    lines.append(f"{NOT_MEASURED} They decide much of a jump; no figure here shows them.")
    lines.append(_retest(result, athlete))
    lines += _weaker_sides(result)
    if result.gap.second_opinions:
        lines.append("Second opinions on these tests, with their cautions: --full.")
    for finding in result.findings:
        hint = f"; {finding.hint}" if finding.hint else ""
        lines.append(f"{finding.level.capitalize()}: {finding.message}{hint}.")
    return "\n".join(wrap(line) for line in [*lines, CAUTION])


def _why_useful(result: GapResult) -> str:
    """The first missing test weighs most: usual sets a week of its quality x what is not yet known of it."""
    benchmarks = result.benchmarks
    weights = {quality: benchmark.usual_sets for quality, benchmark in benchmarks.qualities.items()}
    verdict = most_useful_tests(result.qualities, weights)[0]
    known = f"of which the tests taken are believed {verdict.confidence:.2f} of 1" if verdict.tested else "untested"
    sets = f"about {weights[verdict.quality]:g} sets of a usual week"
    return f"It speaks for {QUALITY_NAMES[verdict.quality]}: {sets}, {known}."


def _retest(result: GapResult, athlete: Athlete) -> str:
    unit, retest = athlete.print_as.length, result.retest
    counted = "the best two jumps" if retest.trials > 1 else "one jump"
    single = "" if retest.trials == 1 else f" ({format_length(retest.detectable_single_m, unit, 1)} for single jumps)"
    return (
        f"Retest by the same method, {counted} a day: a change under {format_length(retest.detectable_m, unit, 1)} is "
        f"noise{single}; {format_length(retest.worthwhile_m, unit, 1)} would be worth having."
    )


def _weaker_sides(result: GapResult) -> list[str]:
    """Only differences beyond their error: the others are no finding."""
    return [
        f"Left and right differ beyond the error in {one.test}: {one.weaker} weaker by "
        f"{abs(one.difference_percent):.0f} ± {one.error_percent:.0f} %."
        for one in result.gap.sides
        if one.weaker is not None
    ]
