"""The outcome as a PDF: a page of pictures for each block, with what to do next, and for several one of the season."""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Sequence

from planner.cards.flow import page_frame
from planner.cards.outcome_pictures import Boxed, Season, Series, Strip, Strips
from planner.cards.paper import paper_of
from planner.cards.picture_pages import Chapter, Report, draw_reports
from planner.cards.progress_pictures import DayLine, DayPoint
from planner.domain.card_layout import CardLayout
from planner.domain.terms import QUALITY_NAMES
from planner.estimate.belief import Verdict, interval
from planner.estimate.retest_change import QualityChange, Tested
from planner.jobs.progress_report import planned_and_done
from planner.report.block_result import Outcome
from planner.report.outcome_text import also_known, chain_sentence, change_words, head, jump_lines_of, what_next
from planner.units import UNITS, counted

STRIPS = (
    "Ring: seen. Dot: to be believed, thick line 50 %, thin line {share:.0f} % sure. Box around 0: too small to "
    "matter. Hatched: what such blocks usually bring."
)
DAYS = "Filled: tests. Rings: jump days of the log, which have a level of their own. Lines: a day's error."
SEASON = "Dots: tests, and maxima as the log has them when a block ends. Rings: jump days of the log."
DASHES = (None, (4.0, 2.0), (1.2, 1.8), (7.0, 2.0), (5.0, 1.5))
MOST_LIFTS = len(DASHES) - 1


def outcome_report(
    outcomes: Sequence[Outcome], usual: Verdict | None, layout: CardLayout, paper: str | None = None
) -> bytes:
    """UserError as ``draw_reports`` does. ``usual``: the gain of a block over several; None for one."""
    athlete = outcomes[0].athlete
    sheet = paper or athlete.print_as.paper
    width = page_frame(paper_of(sheet), layout).width
    pages = [_page(one, width) for one in outcomes]
    if usual is not None:
        pages.insert(0, _season(outcomes, usual))
    return draw_reports(pages, layout, paper=sheet, foot=f"{athlete.name} · outcome")


def _page(one: Outcome, width: float) -> Report:
    share = 100 * one.rule.believed_interval
    chapters = [
        Chapter("Change", [Strips("From before to after", "percent", _strips(one))], STRIPS.format(share=share)),
        Chapter("The target jump", [_days(one)], f"{' '.join(jump_lines_of(one))} {DAYS}"),
    ]
    if one.followed is not None:
        chapters.append(Chapter("Planned and done", planned_and_done(one.followed, 2), " ".join(also_known(one))))
    chapters.append(Chapter("What next", [Boxed(list(what_next(one)), width)], ""))
    return Report(f"Outcome: {one.athlete.name}", head(one), chapters)


def _strips(one: Outcome) -> list[Strip]:
    """The largest change to be believed first. The jump is told as percent of its rise."""
    jump = change_strip("Target jump, rise", one.verdict, 100 / one.before.rise_m.value, change_words(one))
    found = [jump]
    for line in one.qualities:
        if isinstance(line, QualityChange):
            test = line.before.test.kind.replace("-", " ")
            words = f"{line.verdict.believed.value:+.1f} %, {line.verdict.words}"
            found.append(change_strip(f"{QUALITY_NAMES[line.quality]}, {test}", line.verdict, 1.0, words))
    return sorted(found, key=lambda strip: -strip.believed)


def change_strip(name: str, verdict: Verdict, percent: float, words: str) -> Strip:
    """``percent``: what one of the verdict's units is, in percent or in the picture's unit."""
    inner, usual = interval(verdict.believed, 0.5), verdict.usual
    return Strip(
        name=f"{name[0].upper()}{name[1:]}",
        words=words,
        seen=percent * verdict.seen.value,
        believed=percent * verdict.believed.value,
        inner=(percent * inner[0], percent * inner[1]),
        outer=(percent * verdict.interval[0], percent * verdict.interval[1]),
        small=percent * verdict.worth,
        usual=(percent * (usual.value - usual.se), percent * (usual.value + usual.se)),
    )


def _days(one: Outcome) -> DayLine:
    unit = one.athlete.print_as.length
    unit_m = UNITS["length"][unit]
    above_m = one.touch_m or 0.0
    points = [
        DayPoint(height.date, (height.rise_m.value + above_m) / unit_m, height.rise_m.se / unit_m, filled=True)
        for tested in (one.before, one.after)
        for height in tested.heights
    ]
    for line in one.followed.target_jumps if one.followed is not None and one.touch_m is not None else ():
        points += [DayPoint(day.date, day.middle_m / unit_m, day.spread_m / unit_m) for day in line.days]
    title = "Touch" if one.touch_m is not None else "Rise"
    return DayLine(title, unit, sorted(points, key=lambda point: (point.date, not point.filled)))


def _season(outcomes: Sequence[Outcome], usual: Verdict) -> Report:
    first = outcomes[0]
    marked = [(one.block.weeks[0].start, f"block {number}") for number, one in enumerate(outcomes, start=1)]
    picture = Season("Since then", "percent of the first test", list(_series(outcomes)), marked)
    said = f"{chain_sentence(outcomes, usual)} {SEASON}"
    begun, ended = first.block.weeks[0].start, outcomes[-1].after.dates[-1]
    subtitle = f"{counted(len(outcomes), 'block')}, from {begun} to the test on {ended}"
    return Report(f"Season: {first.athlete.name}", subtitle, [Chapter("Jump and maxima", [picture], said)])


def _series(outcomes: Sequence[Outcome]) -> Iterator[Series]:
    """The target jump's rise, then the lifts with the most readings that were tested, each against its first test."""
    tests: dict[datetime.date, Tested] = {}
    for one in outcomes:
        tests |= {tested.dates[-1]: tested for tested in (one.before, one.after)}
    base_m, loose = outcomes[0].before.rise_m.value, []
    for one in (one for one in outcomes if one.touch_m is not None):
        days = [day for line in (one.followed.target_jumps if one.followed else ()) for day in line.days]
        loose += [(day.date, 100 * (day.middle_m - (one.touch_m or 0.0)) / base_m) for day in days]
    points = [(day, 100 * tested.rise_m.value / base_m) for day, tested in sorted(tests.items())]
    yield Series("Target jump, rise", points, loose)
    yield from _lifts(outcomes)


def _lifts(outcomes: Sequence[Outcome]) -> Iterator[Series]:
    told = [one.followed for one in outcomes if one.followed is not None]
    counts: dict[str, int] = {}
    for followed in told:
        for course in followed.lifts:
            if course.tested is not None and course.tested.own:
                counts[course.movement] = counts.get(course.movement, 0) + len(course.readings)
    for number, lift in enumerate(sorted(counts, key=lambda name: (-counts[name], name))[:MOST_LIFTS], start=1):
        courses = [(one, course) for one in told for course in one.lifts if course.movement == lift and course.tested]
        base_kg = next(course.tested.load_kg for _, course in courses if course.tested)
        points = []
        for followed, course in courses:
            tested_kg = course.tested.load_kg if course.tested else base_kg
            points.append((followed.block.weeks[0].start, 100 * tested_kg / base_kg))
            points.append((followed.through, 100 * course.now_kg / base_kg))
        yield Series(courses[0][1].name, points, (), DASHES[number])
