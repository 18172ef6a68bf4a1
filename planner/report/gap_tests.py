"""What the tests say besides the gap: every height by its method, both formulas, left and right, second opinions."""

from __future__ import annotations

from planner.domain.athlete import Athlete
from planner.domain.terms import QUALITY_NAMES, TakeOffLegs, legs_of
from planner.domain.test_kinds import KindOfTest
from planner.estimate.disagreements import deficit_words
from planner.estimate.estimate_gap import GapResult
from planner.estimate.heights import rise_with_error
from planner.estimate.qualities import QualityResult
from planner.estimate.quality_readings import unit_of
from planner.estimate.take_off import take_off_in_contact
from planner.estimate.words import Words, words_of
from planner.report.terminal import table

MOST_APART_m = 0.15  # heights of one jump by different definitions: Xu et al. 2023, Sports Med 53:1055
OTHER: dict[TakeOffLegs, TakeOffLegs] = {"one-leg": "two-leg", "two-leg": "one-leg"}


def kinds(result: GapResult, athlete: Athlete) -> list[str]:
    """Each kind of test that was taken: what it measures, how it was done, the error of one trial and its source."""
    lines = []
    for test_kind in dict.fromkeys(test.kind for test in athlete.tests):
        kind = result.benchmarks.test_kinds[test_kind]
        taken = [test for test in athlete.tests if test.kind == test_kind]
        methods = "; ".join(dict.fromkeys(how for test in taken if (how := test.method or test.protocol)))
        done = f"Done: {methods}" if methods else f"The file does not say how; usually: {kind.method}"
        trial = f"One trial of the usual {kind.trials}" if kind.trials > 1 else "It"
        lines.append(f"{kind.name}: {kind.measures}. {done}. {trial} errs by {_size(kind, words_of(athlete))}.")
    return lines


def _size(kind: KindOfTest, words: Words) -> str:
    """``2 cm, read to 1 cm (common practice, no source)``."""
    error = kind.length_error or kind.time_error or kind.share_error
    assert error is not None

    def size(value: float) -> str:
        if kind.length_error:
            return words.length(value)
        return f"{1000 * value:g} ms" if kind.time_error else f"{100 * value:g} %"

    read_to = f", read to {size(error.resolution)}" if error.resolution else ""
    day = f", a day by {size(error.day_error)}" if error.day_error else ""
    return f"{size(error.typical_error)}{read_to}{day} ({error.source})"


def every_test(result: GapResult) -> str:
    """A row a test under its quality; those that do not count (other leg, second choice of test) are in brackets."""
    rows = [["", "side", "have", "need", "short or over", "confidence"]]
    for quality, verdict in result.qualities.items():
        rows.append([QUALITY_NAMES[quality], *[""] * 5])
        if not verdict.tested:
            name, side = verdict.first_test.id.replace("-", " "), verdict.first_test.sides
            rows.append([f"  {name}", side, "untested", _need(verdict), "", ""])
        for one in (*verdict.counted, *verdict.shown):
            unit = one.reading.unit
            cells = [
                f"{figure(one.reading.have, unit)} {unit}",
                f"{figure(one.need, unit)} {unit}",
                deficit_words(one.deficit, digits=1),
                f"{100 * one.confidence:.0f} %",
            ]
            shown = cells if one in verdict.counted else [f"({cell})" for cell in cells]
            rows.append([f"  {one.reading.name}", one.side, *shown])
    return table(rows)


def _need(verdict: QualityResult) -> str:
    unit = unit_of(verdict.first_test)
    return f"{figure(verdict.first_need, unit)} {unit}"


def heights(result: GapResult, athlete: Athlete) -> list[str]:
    """One line a test; the one that counts is named. Heights are never averaged, nor compared without a warning."""
    words = words_of(athlete)
    lines = []
    for one in result.jumps.heights:
        counts = "; this one counts" if one in result.jumps.days else ""
        mean = f"all {one.trials} trials" if one.trials > 1 else "one trial"
        lines.append(f"{one.described()}: rise {rise_with_error(one, words)}, {mean}{counts}.")
    if len({one.method for one in result.jumps.heights}) > 1:
        lines.append(
            "These are different quantities: for one and the same jump they differ by up to "
            f"{words.length(MOST_APART_m, 0)} (Xu et al. 2023, Sports Med 53:1055)."
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
        own = next(one.reading.have_se for one in verdict.counted if one.reading.source == line.source)
        lines.append(
            f"{QUALITY_NAMES[line.quality]} ({line.side}): has {figure(line.have or 0.0, line.unit)} ± "
            f"{figure(own, line.unit)} {line.unit}; {_short_or_over(line.deficit, line.deficit_se)} "
            f"(test, curve and target), emphasis × {line.emphasis:.2f} ± {line.emphasis_se:.2f}"
            + ("; less than twice its error." if abs(line.deficit) < 2 * line.deficit_se else ".")
        )
    return lines


def _short_or_over(deficit: float, error: float) -> str:
    return f"{100 * abs(deficit):.1f} ± {100 * error:.1f} % {'short' if deficit > 0 else 'over'}"


def figure(value: float, unit: str) -> str:
    """Newtons and repetitions as whole numbers; speeds and shares of body mass to the hundredth."""
    return f"{value:,.{2 if unit == 'm/s' or unit.endswith('body mass') else 0}f}"


def lifts(result: GapResult, athlete: Athlete) -> list[str]:
    words = words_of(athlete)
    return [
        f"{one.name}{f' ({side})' if side != 'both' else ''}, {one.describe(words)}: Epley {words.load(one.epley_kg)}, "
        f"Brzycki {words.load(one.brzycki_kg)}; used {words.load_number(one.one_rm_kg.value)} ± "
        f"{words.load(one.one_rm_kg.se)}."
        for (_, side), one in result.maxima.items()
    ]


def sides(result: GapResult, athlete: Athlete) -> list[str]:
    words = words_of(athlete)
    lines = []
    for one in result.gap.sides:
        left, right = (_side_figure(value, one.unit, words) for value in (one.left, one.right))
        figures = f"{one.test}: left {left}, right {right}"
        apart = f"{abs(one.difference_percent):.0f} ± {one.error_percent:.0f} %"
        verdict = f"{one.weaker} weaker by {apart}" if one.weaker else f"no difference beyond the error ({apart})"
        lines.append(f"{figures}: {verdict}{'; a later test replaces it' if one.superseded else ''}.")
    return lines


def _side_figure(value: float, unit: str, words: Words) -> str:
    if unit == "m":
        return words.length(value)
    if unit == "kg":
        return words.load(value)
    return f"{value:,.{0 if unit in ('N', 'reps') else 1}f} {unit}"


def opinions(result: GapResult) -> list[str]:
    lines = []
    for one in result.gap.second_opinions:
        large = one.unit in ("W", "N")
        value = f"{one.value:,.0f} {one.unit}" if large else f"{one.value:.2f} {one.unit}".strip()
        lines.append(f"{one.name}: {value}: {one.says}. Caution: {one.caution}. Source: {one.source}.")
    return lines


def other_legs(result: GapResult, words: Words) -> list[str]:
    """The same rise off the other number of legs, in its usual contact time: an example, not a test."""
    contact = result.inputs.contact_time_s
    legs = legs_of(result.take_off)
    usual = result.benchmarks.take_offs[OTHER[legs]].contact
    if contact is None:
        usual = result.benchmarks.take_offs[legs].contact
    take_off = take_off_in_contact(
        rise_m=result.inputs.rise_target_m.value,
        body_mass_kg=result.inputs.body_mass_kg.value,
        contact_time_s=usual.value,
    )
    force = words.force(take_off.mean_ground_force_N)
    figures = f"{force}, {take_off.mean_ground_force_bw:.2f} body weights in {usual.value:.2f} s"
    if contact is None:
        return [f"Off a run-up instead, in a usual contact: target {figures} (an estimate; {usual.source})."]
    number = "two legs, shared by both" if OTHER[legs] == "two-leg" else "one leg"
    return [f"The target's rise off {number}: {figures} (an estimate; {usual.source})."]
