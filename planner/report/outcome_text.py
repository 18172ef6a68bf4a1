"""What came of a block in a minute's read: seen, to be believed, worth having; what was done; what to do next."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from planner.domain.terms import QUALITY_NAMES
from planner.estimate.belief import Verdict
from planner.estimate.other_lifts import OtherLift
from planner.estimate.retest_change import NotCompared, QualityChange, Tested
from planner.estimate.uncertainty import Estimate
from planner.estimate.words import Words, words_of
from planner.report.block_result import Outcome
from planner.report.progress_text import pain_words, what_was_done
from planner.report.terminal import table, wrap
from planner.units import UNITS, counted

BESIDE = "What else changed (season, sleep, other sport) is in the gain too."


def outcome_text(one: Outcome) -> str:
    parts = [
        "OUTCOME\n" + wrap(head(one)),
        "\n".join(["Target jump", *(wrap(line, "  ") for line in jump_lines_of(one))]),
        "\n".join(["Qualities, change in percent of the test before", *_qualities(one)]),
        "\n".join(["Also", *(wrap(line, "  ") for line in also_known(one))]),
        "\n".join(["What next", *(wrap(line, "  ") for line in what_next(one))]),
    ]
    return "\n\n".join(parts) + "\n"


def chain_text(outcomes: Sequence[Outcome], usual: Verdict) -> str:
    """Blocks in order, and the gain that this athlete usually makes in one."""
    first = outcomes[0]
    rows = [["block", "before", "after", "seen", "worth having"]]
    for one in outcomes:
        begun = one.block.weeks[0].start
        marks = [_height(tested, one) for tested in (one.before, one.after)]
        seen = _with_error(one.by_tests_m, first)
        rows.append([f"  {one.block.template_name}, {begun}", *marks, seen, one.verdict.words])
    return "\n".join(["BLOCK AFTER BLOCK", table(rows), wrap(chain_sentence(outcomes, usual))]) + "\n"


def chain_sentence(outcomes: Sequence[Outcome], usual: Verdict) -> str:
    first = outcomes[0]
    return (
        f"A block's gain of this athlete, by {counted(len(outcomes), 'block')}: seen "
        f"{_with_error(usual.seen, first)} on average; to be believed "
        f"{_believed(usual, first)}. It does not show which plan suits whom."
    )


def head(one: Outcome) -> str:
    weeks = one.block.weeks
    days = " and ".join(str(day) for day in one.after.dates)
    return (
        f"{one.athlete.name}: {one.block.template_name}, {counted(len(weeks), 'week')} from {weeks[0].start}; tested "
        f"again on {days}."
    )


def jump_lines_of(one: Outcome) -> Iterator[str]:
    how = one.before.heights[0].as_done().capitalize()
    yield (
        f"{how}: {_height(one.before, one)} before ({_how_often(one.before)}), {_height(one.after, one)} "
        f"after ({_how_often(one.after)})."
    )
    seen = f"Seen: {_with_error(one.by_tests_m, one)} by the tests"
    if one.by_days is not None:
        days = one.by_days
        seen += (
            f"; {_with_error(days.change_m, one)} by the line through "
            f"{days.days} jump days of the log ({days.jumps} jumps)"
        )
        together = f"together {_with_error(one.verdict.seen, one)}"
        seen += f"; {together}" if days.agrees else "; the two disagree, so the tests alone count"
    yield f"{seen}."
    usual = one.verdict.usual
    yield (
        f"To be believed: {_believed(one.verdict, one)}, since such blocks bring {_with_error(usual, one)} "
        f"({one.rule.jump.source})."
    )
    worth = _size(one.verdict.worth, one)
    yield f"Worth having (more than {worth}): {one.verdict.words}, chance {one.verdict.chance:.2f}. {_verdict(one)}"


def _verdict(one: Outcome) -> str:
    """It worked, under both conditions; else which of them fails."""
    verdict, rule = one.verdict, one.rule
    if verdict.worked and one.share_done is not None and one.little_done:
        done, least = (f"{100 * share:.0f} %" for share in (one.share_done, rule.least_done))
        return (
            f"The jump is up, but only {done} of the block was done: with less than {least} the gain is not the "
            "block's to claim."
        )
    if verdict.worked:
        return "It worked."
    low, high = (_change(end, one) for end in verdict.bare)
    bare = f"the {100 * rule.bare_interval:.0f} % interval of what was seen alone is {low} to {high}"
    if verdict.bare[0] <= 0:
        return f"That it worked cannot be said: {bare}, and 0 is in it."
    return f"That it worked cannot be said: a gain worth having is not likely enough ({rule.likely_from:g} is asked)."


def _qualities(one: Outcome) -> list[str]:
    compared = [line for line in one.qualities if isinstance(line, QualityChange)]
    rows = [["", "before to after", "seen", "to be believed", "worth having"]]
    rows += [_row(line, one) for line in compared]
    lines = [table(rows)] if compared else []
    if one.strength is not None:
        lines.append(wrap(f"All lifts together: seen {_percent(one.strength)}; {_chance(one.strength)}.", "  "))
    if compared:
        usual = ", ".join(
            f"{kind.kind.replace('-', ' ')} {kind.gain_percent:g} ± {kind.spread_percent:g} %"
            for kind in one.rule.tests
            if kind.kind in {line.before.test.kind for line in compared}
        )
        share = len(one.block.weeks) / one.rule.whole_block_weeks
        short = f", of which a block of {len(one.block.weeks)} weeks brings its share" if share < 1 else ""
        lines.append(wrap(f"Usual: {usual}{short} ({one.rule.tests_source}).", "  "))
    missing = [line for line in one.qualities if isinstance(line, NotCompared)]
    lines += [wrap(f"{QUALITY_NAMES[line.quality]}: {line.why}.", "  ") for line in missing]
    if one.other_lifts:
        words = words_of(one.athlete)
        told = "; ".join(_other_lift(lift, words) for lift in one.other_lifts)
        lines.append(wrap(f"Lifts tested again that count for none of these: {told}.", "  "))
    return lines


def _other_lift(lift: OtherLift, words: Words) -> str:
    """``front squat: 84 kg × 3, 1 rep in reserve before, 88.5 kg × 3, 1 rep in reserve after, maximum +5.4 ± 4 %``."""
    side = "" if lift.side == "both" else f" ({lift.side})"
    return (
        f"{lift.before.name}{side}: {lift.before.describe(words)} before, {lift.after.describe(words)} after, "
        f"maximum {lift.seen.value:+.1f} ± {lift.seen.se:.1f} %"
    )


def _row(line: QualityChange, one: Outcome) -> list[str]:
    before, after = line.before, line.after
    digits = 0 if before.unit in ("N", "reps") else 2
    low, high = line.verdict.interval
    several = sum(other.quality == line.quality for other in one.qualities) > 1
    test = f" ({before.done_as or before.test.kind})" if several else ""
    return [
        f"  {QUALITY_NAMES[line.quality]}{test}",
        f"{before.have:,.{digits}f} to {after.have:,.{digits}f} {before.unit}",
        _percent(line.verdict),
        f"{line.verdict.believed.value:+.1f} ({low:+.1f} to {high:+.1f})",
        f"{line.verdict.words}, {line.verdict.chance:.2f}",
    ]


def _percent(verdict: Verdict) -> str:
    return f"{verdict.seen.value:+.1f} ± {verdict.seen.se:.1f} %"


def _chance(verdict: Verdict) -> str:
    up = "up" if verdict.worked else "not seen to be up"
    return f"more than {verdict.worth:g} %: {verdict.words}, chance {verdict.chance:.2f}: {up}"


def also_known(one: Outcome) -> Iterator[str]:
    if one.followed is None:
        yield "No log: what was done of the plan is not known."
    else:
        yield what_was_done(one.followed)
        if one.share_done is not None:
            yield f"Done of the whole block: {100 * one.share_done:.0f} % (the lower of sets and contacts)."
    words = words_of(one.athlete)
    then, now = one.block.gap.body_mass_kg, one.athlete.body_mass
    weighed = [] if one.followed is None else [day.entry.body_mass for day in one.followed.done if day.entry.body_mass]
    logged = f"; last in the log {words.load(weighed[-1])}" if weighed else ""
    yield f"Body mass: {words.load(then)} before, {words.load(now)} in the athlete's file now{logged}."
    courses = [] if one.followed is None else one.followed.pain
    for course in courses:
        assert one.followed is not None
        yield f"Pain: {pain_words(course, one.followed)}"
    if not courses:
        yield f"Pain: {', '.join(one.sore) if one.sore else 'none told'}."
    yield from _methods(one)
    yield BESIDE


def _methods(one: Outcome) -> Iterator[str]:
    if len(one.methods) > 1:
        yield f"The method is written in several ways ({'; '.join(one.methods)}): repeat it alike, or marks may differ."


def what_next(one: Outcome) -> Iterator[str]:
    """The row of the table, why it is that one, and what a retest could tell where this one cannot."""
    yield f"{one.rule.next_block[one.row][0].upper()}{one.rule.next_block[one.row][1:]}."
    yield f"Why: {', '.join(_reasons(one))}."
    if one.verdict.words == "cannot tell" and one.retest.ways:
        ways = ", ".join(
            f"{_size(way.detectable_m, one)} with {counted(way.days, 'day')} of {counted(way.jumps, 'jump')}"
            for way in one.retest.ways
        )
        yield f"What a retest can tell from chance (95 %): {ways}."


def change_words(one: Outcome) -> str:
    """``+3.9 cm, almost surely``."""
    return f"{_change(one.verdict.believed.value, one)}, {one.verdict.words}"


def _reasons(one: Outcome) -> Iterator[str]:
    if one.sore:
        yield f"{', '.join(one.sore)} hurts"
    yield "the jump is up" if one.verdict.worked else f"the jump is not seen to be up ({one.verdict.words})"
    if one.strength is None:
        yield "no lift that tells a quality was tested again" if one.other_lifts else "no lift was tested again"
    else:
        yield "strength is up" if one.strength.worked else f"strength is not seen to be up ({one.strength.words})"
    if one.share_done is not None:
        more = "at least" if one.share_done >= one.rule.least_done else "less than"
        yield f"{more} {100 * one.rule.least_done:.0f} % of the plan was done"


def _how_often(tested: Tested) -> str:
    return f"{counted(tested.trials, 'jump')} on {counted(len(tested.dates), 'day')}"


def _height(tested: Tested, one: Outcome) -> str:
    words = words_of(one.athlete)
    rise_m = tested.rise_m.value
    return words.length(rise_m) if one.touch_m is None else words.mark(rise_m + one.touch_m)


def _believed(verdict: Verdict, one: Outcome) -> str:
    low, high = verdict.interval
    share = f"{100 * one.rule.believed_interval:.0f} %"
    return f"{_change(verdict.believed.value, one)} ({share}: {_number(low, one)} to {_number(high, one)})"


def _number(length_m: float, one: Outcome) -> str:
    return f"{length_m / UNITS['length'][one.athlete.print_as.length]:.1f}"


def _change(length_m: float, one: Outcome) -> str:
    unit = one.athlete.print_as.length
    return f"{length_m / UNITS['length'][unit]:+.1f} {unit}"


def _with_error(one: Estimate, of: Outcome) -> str:
    """``+3.4 ± 2.3 cm``."""
    return f"{_change(one.value, of).split()[0]} ± {_size(one.se, of)}"


def _size(length_m: float, one: Outcome) -> str:
    return words_of(one.athlete).length(length_m)
