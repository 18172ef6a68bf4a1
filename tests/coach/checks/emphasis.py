"""Work follows the tests: a surplus frees time, a deficit is seen, an unsure test says may; and age and years count."""

from __future__ import annotations

import re
from collections.abc import Iterator
from statistics import mean

from planner.domain.gap_record import QualityLine
from planner.domain.terms import LIFT_QUALITIES, Joint, Quality
from tests.coach.block_read import Line, Read
from tests.coach.checking import Break, check, in_week

ALL_OVER = -0.1  # the deficit of each lift quality, where all of them have to spare
FREED = 0.9  # of the template's sets at most then: they may fall to 0.75
ERRORS = 2  # a deficit of more standard errors is one that the test is sure of
SEEN = 1.2  # the quality's share of the template's sets to that of the others: what is seen without a table (own)
FIRST = 3  # the tag of a movement that trains a quality first of all
ACTED_ON = 0.02  # deficit x confidence: smaller is left alone
HOLDS_SHARE, LOADED_SHARE = 1 / 3, 2 / 3  # of the deficit's sets
OLD_years, LOWER = 35, 0.95  # own: a tendon's ceiling is a step lower then
TENDONS: tuple[Joint, ...] = ("achilles-ankle", "patellar-knee")
JOINT_OF: dict[Quality, Joint] = {"calf-ankle": "achilles-ankle", "knee-dominant": "patellar-knee"}
SAYS_MORE = re.compile(r"asks for more ([^.]*)\.")
UNSURE = re.compile(r"\b(may|might|perhaps|unsure)\b", re.I)
IN_WORDS: tuple[tuple[str, Quality], ...] = (
    ("calf", "calf-ankle"),
    ("hip", "unilateral-hip"),
    ("knee", "knee-dominant"),
    ("sprint", "speed-exposure"),
    ("jump", "speed-exposure"),
    ("strength", "maximal-strength"),
)
YEARS = re.compile(r"\b(year|training age|beginner|novice|experienced|trained)", re.I)


def _template_sets(read: Read, quality: Quality) -> float:
    """What the template's load weeks hold of a quality for this level and so many days."""
    plan = read.template.levels[read.athlete.level]
    days = len(read.athlete.training.days)
    fitting = [one for one in read.template.day_plans if not one.levels or read.athlete.level in one.levels]
    factor = max((one.factor for one in fitting if one.days <= days), default=1.0)
    return factor * sum(plan.weeks[week.number - 1].sets.get(quality, 0.0) for week in read.load_weeks)


def _share(read: Read, quality: Quality) -> float:
    """The block's sets of a quality to the template's."""
    done = sum(week.totals.working_sets.get(quality, 0.0) for week in read.load_weeks)
    return done / max(_template_sets(read, quality), 0.1)


def _deficits(read: Read) -> dict[Quality, QualityLine]:
    found = {quality: read.deficit(quality) for quality in LIFT_QUALITIES}
    return {quality: line for quality, line in found.items() if line is not None}


def _strong_throughout(read: Read) -> bool:
    lines = _deficits(read)
    return len(lines) == len(LIFT_QUALITIES) and all(line.deficit < ALL_OVER for line in lines.values())


@check("8", "all strength tests over, and as many sets of strength as for anybody", to=_strong_throughout)
def surplus_frees_time(read: Read) -> Iterator[Break]:
    done = sum(week.totals.working_sets.get(q, 0.0) for week in read.load_weeks for q in LIFT_QUALITIES)
    usual = sum(_template_sets(read, quality) for quality in LIFT_QUALITIES)
    if done > FREED * usual:
        yield Break(
            f"every lift quality is over, and the load weeks hold {done:.0f} sets of the template's {usual:.0f}"
        )


def _sure(line: QualityLine) -> bool:
    return line.deficit > ERRORS * (line.deficit_se or 0.0)


def _surely_short(read: Read) -> bool:
    return any(_sure(line) and not _hurts(read, quality) for quality, line in _deficits(read).items())


def _others(read: Read, quality: Quality) -> list[Quality]:
    """The lift qualities that no test finds short, which pay for this one; where each is short, those not surely so.

    Two sure deficits do not pay for each other: they are compared with each other only where all four are sure.
    """
    others = [other for other in LIFT_QUALITIES if other != quality]
    short, lines = dict(_acted_on(read)), _deficits(read)
    unsure = [other for other in others if other not in lines or not _sure(lines[other])]
    return [other for other in others if other not in short] or unsure or others


def _hurts(read: Read, quality: Quality) -> bool:
    return quality in JOINT_OF and read.pain(JOINT_OF[quality]) > 0


@check("8", "a deficit beyond two errors that moves little", to=_surely_short)
def sure_deficit_is_seen(read: Read) -> Iterator[Break]:
    for quality, line in _deficits(read).items():
        if _sure(line) and not _hurts(read, quality):
            own, others = _share(read, quality), mean(_share(read, q) for q in _others(read, quality))
            if own < SEEN * others:
                said = f"{quality} is {line.deficit:.0%} short (± {line.deficit_se or 0:.0%}), and gets"
                yield Break(f"{said} {own:.2f} of the template's sets where the others get {others:.2f}")


def _acted_on(read: Read) -> list[tuple[Quality, QualityLine]]:
    short = [(q, line) for q, line in _deficits(read).items() if line.deficit * line.confidence >= ACTED_ON]
    return [(quality, line) for quality, line in short if not _hurts(read, quality)]


def _trains(read: Read, quality: Quality) -> list[Line]:
    """The sets of load weeks that train a quality first of all."""
    return [
        line
        for line in read.where(lambda line: not line.item.contacts, read.load_weeks)
        if line.movement.qualities.get(quality, 0) == FIRST
    ]


def _loadable_deficit(read: Read) -> bool:
    return read.has_loads and not read.planned_as_novice and bool(_acted_on(read))


@check("8", "a deficit's sets done without a load, or as unloaded holds", to=_loadable_deficit)
def deficit_is_loaded(read: Read) -> Iterator[Break]:
    for quality, line in _acted_on(read):
        lines = _trains(read, quality)
        sets = sum(one.item.sets for one in lines)
        held = sum(one.item.sets for one in lines if one.movement.kind == "hold" and not one.loaded)
        loaded = sum(one.item.sets for one in lines if one.loaded)
        if held > HOLDS_SHARE * sets or loaded < LOADED_SHARE * sets:
            said = f"{quality} is {line.deficit:.0%} short: of {sets} sets {held} are unloaded holds, {loaded} loaded"
            yield Break(said, movement=next((one.movement.id for one in lines if not one.loaded), None))


@check("8", "a card that says the test asks for more, inside two errors and without may")
def unsure_test_says_may(read: Read) -> Iterator[Break]:
    for week in read.block.weeks:
        for session in week.sessions:
            for found in SAYS_MORE.finditer(session.why):
                sentence = session.why[: found.end()].rsplit(". ", 1)[-1]
                for quality in _qualities_in(found[1]):
                    line = read.deficit(quality)
                    if line is not None and not _sure(line) and not UNSURE.search(sentence):
                        said = f"{line.deficit:.0%} short, ± {line.deficit_se or 0:.0%}"
                        yield Break(f"'{sentence}' with {line.quality} {said}", week.number, session.date)


def _qualities_in(words: str) -> list[Quality]:
    """What a sentence asks more of: ``calf strength and fast jumps and sprints`` are two qualities."""
    named = [next((q for word, q in IN_WORDS if word in part), None) for part in words.split(" and ")]
    return list(dict.fromkeys(quality for quality in named if quality is not None))


@check(
    "should",
    "over 35, and the tendons' ceilings of a younger athlete",
    to=lambda read: read.age_years >= OLD_years,
    source="own",
)
def age_lowers_the_ceilings(read: Read) -> Iterator[Break]:
    usual = read.template.levels[read.athlete.level].joint_stress.week
    for joint in TENDONS:
        ceiling = read.load_weeks[0].bands.joint_stress.get(joint, 0.0)
        if ceiling > LOWER * usual:
            said = f"{read.age_years:.0f} years old, and the ceiling of {joint} is {ceiling:g} of the usual {usual:g}"
            yield in_week(read.load_weeks[0], said)


def _says_outlook(read: Read) -> bool:
    return read.block.gap.outlook is not None and read.athlete.training_age_years is not None


@check("should", "one range of gains for everybody, whatever the years of training", to=_says_outlook)
def gains_follow_training_age(read: Read) -> Iterator[Break]:
    said = [one for one in read.block.gap.story if "block" in one and re.search(r"\d", one) and "gap is about" in one]
    said = said or [one for one in read.block.gap.story if "A block has brought" in one]
    for sentence in said:
        if not YEARS.search(sentence):
            yield Break(f"'{sentence}' for {read.athlete.training_age_years:g} years of training, as for anybody")
