"""Sentences are true: each is held to the numbers that it speaks of."""

from __future__ import annotations

import datetime
import re
from collections.abc import Callable, Iterator

from planner.domain.block import Session, Week
from planner.domain.terms import DAYS, Pattern, Quality
from tests.coach.block_read import Line, Read
from tests.coach.checking import Break, at, check
from tests.coach.printed import item_words, overview_words, said_words

EASY = re.compile(r"easy on the (tendons?|springs)", re.I)
CLAIMS_ALL = re.compile(r"no other choice of movements", re.I)
PERCENT_OF_MAX = re.compile(r"[\d.]+ % of (?:this lift's )?max(?! [a-z]*\b(with|of|body))", re.I)
STIFF, STIFF_UNDER_s = re.compile(r"stiff but low", re.I), 0.22  # a longer contact is slow, not stiff
SHORT_BY = 0.03  # a deficit that a page may not call enough
HALVES = re.compile(r"(\d+) % limited by [a-z -]*strength.*?(\d+) % limited by fast force and speed")
TOUCHES_TARGET_percent = 85
NAMES: dict[Quality, str] = {
    "maximal-strength": "maximal strength",
    "unilateral-hip": "one-leg hip strength",
    "knee-dominant": "knee-dominant strength",
    "calf-ankle": "calf strength",
    "speed-exposure": "fast force and speed",
}

Holds = Callable[[Read, list[Line]], bool]


def _part(*names: str) -> Holds:
    return lambda read, lines: any(line.item.part in names for line in lines)


def _pattern(*names: Pattern) -> Holds:
    return lambda read, lines: any(set(names) & set(line.movement.patterns) for line in lines)


def _one_leg(read: Read, lines: list[Line]) -> bool:
    return any(line.item.part == "one-leg" for line in lines)


def _target_jump(read: Read, lines: list[Line]) -> bool:
    return any(read.is_target_jump(line, TOUCHES_TARGET_percent) for line in lines)


def _no_jump(read: Read, lines: list[Line]) -> bool:
    return not any(line.item.contacts for line in lines)


# What a card's reason names, and what must then be on the card.
CLAIMS: tuple[tuple[re.Pattern[str], str, Holds], ...] = (
    (re.compile(r"\bthe jump (itself )?off the run-up|\bthe jump itself", re.I), "the target jump", _target_jump),
    (re.compile(r"\bwithout (a single|any) jump", re.I), "no jump", _no_jump),
    (
        re.compile(r"\bsprints? and (the most intense )?jumps|^sprints\b|\bspeed and jumps", re.I),
        "a sprint",
        _part("sprint"),
    ),
    (re.compile(r"\blandings? and\b", re.I), "a landing", _part("landing")),
    (re.compile(r"\bthe squat\b", re.I), "a squat", _pattern("squat")),
    (re.compile(r"\bthe hinge\b", re.I), "a hinge", _pattern("hinge")),
    (re.compile(r"\bone[ -]leg (strength|hip|and|at a time)", re.I), "one-leg work", _one_leg),
    (re.compile(r"\bcalf strength\b(?!\.)", re.I), "calf work", _part("calf")),
)
ASKED_BY_TEST = re.compile(r"The test \w+ (ask|asks) for[^.]*\.|The test asks for[^.]*\.")


def _each_session(read: Read) -> Iterator[tuple[Week, Session, list[Line]]]:
    for week in read.block.weeks:
        for session in week.sessions:
            yield week, session, read.of(week, session)


@check("10", "easy on the tendons, on the day with the week's highest Achilles points")
def easy_day_is_easy(read: Read) -> Iterator[Break]:
    for week, session, _ in _each_session(read):
        others = [read.points(other, "achilles-ankle") for other in week.sessions if other.id != session.id]
        own = read.points(session, "achilles-ankle")
        if EASY.search(session.why) and own >= max(others, default=own + 1):
            yield Break(f"'easy on the tendons' at {own:.1f} points, the week's highest", week.number, session.date)


@check("10", "a reason of the day that names what is not on the card")
def reason_names_what_is_there(read: Read) -> Iterator[Break]:
    for week, session, lines in _each_session(read):
        reason = ASKED_BY_TEST.sub("", session.why)
        for claim, what, holds in CLAIMS:
            found = claim.search(reason)
            if found and lines and not holds(read, lines):
                yield Break(f"'{found[0]}', and the card has not {what}", week.number, session.date)


@check("10", "a share of a maximum that counts the body, printed like one of the load")
def percent_says_of_what(read: Read) -> Iterator[Break]:
    for line in read.where(lambda line: line.item.percent is not None and line.movement.dose.body_mass_share > 0):
        words = item_words(read, line.item)
        if found := PERCENT_OF_MAX.search(words):
            yield at(line, f"'{found[0]}' beside {line.item.load_kg or 0:g} kg: the share is of body and load together")
            return


def _box_tests(read: Read) -> list[float]:
    """The middle contact of each drop jump test."""
    return [
        sorted(t.contact for t in one.trials)[len(one.trials) // 2]
        for one in read.athlete.tests
        if one.kind == "drop-jump"
    ]


@check("10", "stiff but low, said of a slow contact", to=lambda read: bool(_box_tests(read)))
def stiff_is_quick(read: Read) -> Iterator[Break]:
    slow = [contact for contact in _box_tests(read) if contact >= STIFF_UNDER_s]
    if slow and STIFF.search(said_words(read)):
        yield Break(f"'stiff but low' at {slow[0]:.3f} s")


@check("10", "enough, said of a quality that the same page shows as short")
def enough_is_not_short(read: Read) -> Iterator[Break]:
    for sentence in read.block.gap.story:
        for part in re.split(r"[;:]", sentence):
            if not part.strip().startswith("enough "):
                continue
            for quality, name in NAMES.items():
                line = read.deficit(quality)
                if name in part and line is not None and line.deficit >= SHORT_BY:
                    yield Break(f"'enough {name}', and its test is {line.deficit:.0%} short")


def _shares(read: Read) -> bool:
    return read.block.gap.strength_share is not None and read.block.gap.speed_share is not None


@check("10", "50 % / 50 % limited: two shares cut to the whole and halved, which says nothing", to=_shares)
def limits_are_not_halves(read: Read) -> Iterator[Break]:
    for sentence in read.block.gap.story:
        found = HALVES.search(sentence)
        if found and found[1] == found[2]:
            yield Break(f"'{sentence}'")


def _choice_is_open(read: Read) -> bool:
    stages = read.block.proof.stages
    return read.block.proof.status == "optimal" and any(stage.status != "optimal" for stage in stages[1:])


@check(
    "1",
    "proved that no other choice of movements comes closer, when which movements is a preference",
    to=_choice_is_open,
)
def proof_claims_ranges_alone(read: Read) -> Iterator[Break]:
    if found := CLAIMS_ALL.search(overview_words(read)):
        open_ = next(stage for stage in read.block.proof.stages[1:] if stage.status != "optimal")
        yield Break(
            f"'{found[0]}', and the stage '{open_.name}' stopped at {open_.objective} with a bound of {open_.bound}"
        )


@check("should", "a training day left empty, and nobody says so")
def dropped_day_is_said(read: Read) -> Iterator[Break]:
    for week in read.load_weeks:
        days = [week.start + datetime.timedelta(days=off) for off in range(7)]
        trained = {day.day for day in read.athlete.training.days}
        wanted = [d for d in days if DAYS[d.weekday()] in trained and d not in read.athlete.training.away]
        missing = [date for date in wanted if date not in read.dated]
        for date in missing:
            if f"{date:%A}" not in said_words(read) and f"{date:%a}" not in said_words(read):
                yield Break(f"no session on {date:%A}, and no line says why", week.number, date)
