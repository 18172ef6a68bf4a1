"""Progress as a PDF of pictures: what each chapter shows, from what was followed."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from planner.cards.picture_pages import Chapter, Picture, Report, draw_reports
from planner.cards.progress_pictures import BandChart, BandRow, DayLine, DayPoint, WeekPair, WeekPairs
from planner.domain.card_layout import CardLayout
from planner.domain.terms import side_and_joint
from planner.past.lift_course import LiftCourse
from planner.past.lift_filter import TWO_SIDED_50, TWO_SIDED_90
from planner.report.followed import Followed, WeekDone
from planner.report.progress_text import done_so_far, jump_words, pain_words, what_was_done
from planner.rules.recount import CountedWeek
from planner.units import UNITS

_MOST_LIFTS = 10
_CURRENCIES: tuple[tuple[str, str, Callable[[CountedWeek], float]], ...] = (
    ("Working sets", "sets a week", lambda week: week.working_sets),
    ("Contacts", "landings a week", lambda week: week.contacts),
    ("High contacts", "landings a week", lambda week: week.tier_contacts("high")),
    ("Sprints", "efforts a week", lambda week: week.sprint_efforts),
)


def progress_report(followed: Followed, layout: CardLayout, paper: str | None = None) -> bytes:
    """UserError as ``draw_reports`` does."""
    who = followed.block.for_athlete.name
    report = Report(f"Progress: {who}", what_was_done(followed), list(_chapters(followed)))
    return draw_reports([report], layout, paper=paper or followed.block.for_athlete.paper, foot=f"{who} · progress")


def _chapters(followed: Followed) -> Iterator[Chapter]:
    yield Chapter("Planned and done", planned_and_done(followed), done_so_far(followed))
    if followed.lifts:
        sentence = (
            "Ring: the test. Dot: the maximum now, from the first working set of each day; thick line 50 %, thin line "
            "90 % sure."
        )
        yield Chapter("Maxima", [_maxima(followed)], sentence)
    for line in followed.jumps:
        unit = followed.block.for_athlete.length_unit
        unit_m = UNITS["length"][unit]
        points = [
            DayPoint(day.date, day.best_m / unit_m, day.spread_m / unit_m, filled=day.is_test) for day in line.days
        ]
        jumps = sum(day.jumps for day in line.days)
        title = f"Best touch of {len(points)} day{'s' if len(points) > 1 else ''} and {jumps} jumps"
        yield Chapter(line.name, [DayLine(title, unit, points)], jump_words(line, followed))
    for course in followed.pain:
        rule = followed.rules.pain
        lines = [(float(rule.green_up_to), "green up to here"), (float(rule.amber_up_to), "amber up to here")]
        points = [DayPoint(day.date, float(day.worst), filled=day.state != "green") for day in course.days]
        where = side_and_joint(course.side, course.joint)
        picture = DayLine("Worst of before, during and next morning", "0 to 10", points, lines, 0.0, 10.0)
        yield Chapter(f"Pain: {where}", [picture], pain_words(course, followed))


def planned_and_done(followed: Followed, most: int = len(_CURRENCIES)) -> Sequence[Picture]:
    """A picture for each currency that the weeks hold, of the first ``most``."""
    return [
        WeekPairs(title, unit, [_pair(week, count, followed) for week in followed.weeks])
        for title, unit, count in _CURRENCIES[:most]
        if any(count(week.planned) or count(week.done) for week in followed.weeks)
    ]


def _pair(one: WeekDone, count: Callable[[CountedWeek], float], followed: Followed) -> WeekPair:
    ids = {session.id for session in one.week.sessions}
    why = dict.fromkeys(str(d.entry.why) for d in followed.done if d.missed and d.planned.id in ids)
    return WeekPair(one.week.number, count(one.planned), count(one.done), ", ".join(why))


def _maxima(followed: Followed) -> BandChart:
    unit = followed.block.for_athlete.mass_unit
    unit_kg = UNITS["mass"][unit]
    lifts = sorted(followed.lifts, key=lambda one: -len(one.readings))[:_MOST_LIFTS]
    return BandChart("One-repetition maximum", unit, [_row(one, unit_kg) for one in lifts])


def _row(one: LiftCourse, unit_kg: float) -> BandRow:
    """The 90 % band of the course, and the narrower one inside it."""
    share = TWO_SIDED_50 / TWO_SIDED_90
    inner = (one.now_kg - share * (one.now_kg - one.low_kg), one.now_kg + share * (one.high_kg - one.now_kg))
    return BandRow(
        name=one.name,
        before=None if one.tested is None else one.tested.load_kg / unit_kg,
        now=one.now_kg / unit_kg,
        inner=(inner[0] / unit_kg, inner[1] / unit_kg),
        outer=(one.low_kg / unit_kg, one.high_kg / unit_kg),
    )
