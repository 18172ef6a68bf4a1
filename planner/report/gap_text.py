"""The gap as a coach reads it: the story in a minute, then the figures, the qualities and their consequences."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from planner.domain.athlete import Athlete
from planner.domain.gap_record import Gap, GapLine, QualityLine
from planner.domain.terms import QUALITY_NAMES, Quality
from planner.estimate.disagreements import deficit_words
from planner.estimate.estimate_gap import GapResult
from planner.estimate.qualities import most_useful_tests
from planner.estimate.story import CAUTION, NOT_MEASURED
from planner.estimate.words import words_of
from planner.report.gap_chain import chain
from planner.report.gap_detail import detail
from planner.report.gap_tests import every_test, figure
from planner.report.terminal import table, wrap
from planner.units import POUND_FORCE_N, UNITS, counted


def gap_json(gap: Gap) -> dict[str, Any]:
    """The gap as plain data; unused keys are null."""
    return gap.model_dump(mode="json")


def gap_text(
    result: GapResult,
    athlete: Athlete,
    *,
    full: bool = False,
    base_sets: Mapping[Quality, float] | None = None,
    closed: str | None = None,
) -> str:
    """The gap as text of at most 100 columns.

    ``full`` adds every test, the same take-off at other contact times, the sources of error, and where the curves come
    from. ``base_sets``: the template's working sets a week by quality; if given, the chain ends in sets.
    ``closed``: what the template's gate closes and what opens it.
    """
    parts = [
        "\n".join(["FORCE GAP", *(wrap(sentence) for sentence in result.gap.story)]),
        _figures(result, athlete),
        _qualities(result),
        chain(result, base_sets),
        _closing(result, athlete, closed),
    ]
    if full:
        parts += [f"EVERY TEST OF A QUALITY, COUNTED OR NOT\n{every_test(result)}", detail(result, athlete)]
    return "\n\n".join(parts) + "\n"


def _figures(result: GapResult, athlete: Athlete) -> str:
    gap, unit, words = result.gap, athlete.print_as.length, words_of(athlete)
    rows = [["THE TAKE-OFF", "now", "target", "gap"]]
    if result.jumps.touch_now_m is not None and athlete.target.touch is not None:
        now_m, target_m = result.jumps.touch_now_m, athlete.target.touch
        rows.append(["touch", words.mark(now_m), words.mark(target_m), words.length(target_m - now_m)])
    rows.append(_row("rise after take-off", gap, "rise_m", 1.0 / UNITS["length"][unit], unit, 1, percent=True))
    rows.append(_row("take-off speed", gap, "take_off_speed_m_s", 1.0, "m/s", 2))
    rows.append(_row("net impulse", gap, "net_impulse_Ns", 1.0, "N s", 0))
    rows.append(_row("mean net force", gap, "mean_net_force_N", 1.0, "N", 0))
    rows.append(_row("mean GROUND force", gap, "mean_ground_force_N", 1.0, "N", 0, percent=True))
    if words.mass_unit == "lb":
        rows.append(_row("", gap, "mean_ground_force_N", 1.0 / POUND_FORCE_N, "lbf", 0))
    rows.append(_row("", gap, "mean_ground_force_bw", 1.0, "body weights", 2))
    return f"{table(rows)}\n{wrap(_basis(result, athlete))}"


def _row(name: str, gap: Gap, key: str, factor: float, unit: str, digits: int, percent: bool = False) -> list[str]:
    def cell(line: GapLine) -> str:
        value, error = getattr(line, key) * factor, getattr(line, f"{key}_se") * factor
        return f"{value:,.{digits}f} ± {error:,.{digits}f} {unit}"

    change = cell(gap.gap)
    if percent:
        change += f"  ({100 * getattr(gap.gap, key) / getattr(gap.now, key):+.1f} %)"
    return [name, cell(gap.now), cell(gap.target), change]


def _basis(result: GapResult, athlete: Athlete) -> str:
    gap, heel, words = result.gap, result.jumps.heel_rise, words_of(athlete)
    if gap.push_off_m is None:
        time = f"Contact {gap.contact_time_s:.3f} s ({gap.contact_time_from}); {_touch_down(gap)}."
    else:
        time = f"From a stand: {gap.contact_time_from}, {words.length(gap.push_off_m, 0)}."
    source = "measured on tip-toe" if heel.measured else "an estimate"
    off = (
        f" Heel rise off the touch: {words.length(heel.value_m, 0)} ({source})." if result.jumps.now_from_touch else ""
    )
    trials, days = result.jumps.trials, len(result.jumps.days)
    mean = "one trial" if trials == 1 else f"all {trials} trials{f' of {days} days' if days > 1 else ''}"
    doubt = f" In doubt: {result.jumps.height.doubt}." if result.jumps.height.doubt else ""
    return (
        f"Height by {gap.method}, {mean}.{doubt} {time}{off} Net force is what is left over body weight; ground force "
        "is what the foot presses with. ± is one standard error."
    )


def _touch_down(gap: Gap) -> str:
    fall = gap.touch_down
    if fall is None:
        return "no downward speed at touch-down assumed"
    if fall.measured:
        return f"falling at {fall.slowest_m_s:g} m/s at touch-down, as measured"
    return (
        "no downward speed at touch-down in the figures; that it may be "
        f"{fall.slowest_m_s:g}–{fall.fastest_m_s:g} m/s is in the ± of now and target"
    )


def _qualities(result: GapResult) -> str:
    rows = [["WHAT THE TESTS SAY", "side", "have", "need", "short or over", "confidence", "emphasis"], *_rows(result)]
    legend = (
        "Need: what usually goes with such a take-off (the benchmarks' curves, editable). Confidence: how far the test "
        "is believed. Emphasis: factor on the template's share."
    )
    return f"{table(rows)}\n{wrap(legend)}"


def _rows(result: GapResult) -> list[list[str]]:
    """A row for each test that counts; the other leg and second choices of test are on the second page."""
    counts = {
        (verdict.quality, judgement.side, judgement.reading.source)
        for verdict in result.qualities.values()
        for judgement in verdict.counted
    }
    rows: list[list[str]] = []
    seen: set[Quality] = set()
    for line in result.gap.qualities:
        if line.status == "tested" and (line.quality, line.side, line.source) not in counts:
            continue
        first = line.quality not in seen
        seen.add(line.quality)
        name, tilt = (QUALITY_NAMES[line.quality], f"× {line.emphasis:.2f}") if first else ("", "")
        rows.append([name, line.side, *_quality_cells(line), tilt])
    return rows


def _quality_cells(line: QualityLine) -> list[str]:
    need = f"{figure(line.need, line.unit)} {line.unit}" if line.need is not None else "-"
    if line.have is None:
        return ["untested", need, "", "0"]
    have = f"{figure(line.have, line.unit)} {line.unit}"
    return [have, need, deficit_words(line.deficit, digits=1), f"{100 * line.confidence:.0f} %"]


def _closing(result: GapResult, athlete: Athlete, closed: str | None) -> str:
    lines = ["WHAT NEXT"]
    lines += [closed] if closed else []
    if result.useful_tests:
        lines.append(f"Most useful next test: {result.useful_tests[0]}. {_why_useful(result)}")
    elif all(verdict.tested for verdict in result.qualities.values()):
        lines.append("Every quality has its best test: next comes the retest at the end of the block.")
    else:
        lines.append(
            "No other test is advised at this level, or before landings hold: what is untested keeps its share."
        )
    lines.append(_retest(result, athlete))
    lines += _weaker_sides(result)
    for finding in result.findings:
        hint = f"; {finding.hint}" if finding.hint else ""
        lines.append(f"{finding.level.capitalize()}: {finding.message}{hint}.")
    lines.append(f"{NOT_MEASURED} They decide much of a jump; no figure here shows them.")
    seconds = ", second opinions with their cautions" if result.gap.second_opinions else ""
    lines.append(f"With --full: other contact times, every test and height, left and right{seconds}, sources.")
    return "\n".join(wrap(line) for line in [*lines, CAUTION])


def _why_useful(result: GapResult) -> str:
    """Why the first missing test weighs most: its quality's usual sets a week x what is not yet known about it."""
    benchmarks = result.benchmarks
    weights = {quality: benchmark.usual_sets for quality, benchmark in benchmarks.qualities.items()}
    verdict = most_useful_tests(result.qualities, weights)[0]
    known = f"so far tested with a confidence of {100 * verdict.confidence:.0f} %" if verdict.tested else "untested"
    sets = f"about {counted(weights[verdict.quality], 'set')} of a usual week"
    return f"It tests {QUALITY_NAMES[verdict.quality]}: {sets}, {known}."


def _retest(result: GapResult, athlete: Athlete) -> str:
    words, retest = words_of(athlete), result.retest
    ways = [
        f"{counted(way.days, 'day')} of {counted(way.jumps, 'jump')} show {words.length(way.detectable_m)} or more"
        if way.days > 1
        else f"one day of {counted(way.jumps, 'jump')} shows {words.length(way.detectable_m)} or more"
        for way in retest.ways
    ]
    as_now = f"{counted(len(result.jumps.days), 'day')}, {counted(result.jumps.trials, 'jump')}"
    return (
        f"Retest by the same method, as often as now ({as_now}): a change under "
        f"{words.length(retest.minimal_detectable_change_m)} is noise; "
        f"{words.length(retest.smallest_worthwhile_change_m)} would be worth having."
        + (f" The same athlete differs from day to day: {', '.join(ways)}." if ways else "")
    )


def _weaker_sides(result: GapResult) -> list[str]:
    """Only differences beyond their error: smaller ones mean nothing."""
    return [
        f"Left and right differ beyond the error in {one.test}: {one.weaker} weaker by "
        f"{abs(one.difference_percent):.0f} ± {one.error_percent:.0f} %."
        for one in result.gap.sides
        if one.weaker is not None and not one.superseded
    ]
