"""The strength gate before shock jumps: it leaves the own jump alone, weighs the test's error, and is said."""

from __future__ import annotations

import re
from collections.abc import Iterator

from tests.coach.block_read import Line, Read
from tests.coach.checking import Break, check
from tests.coach.printed import overview_words, said_words

DOES_HIGH_ALREADY = 6  # high contacts in a usual week: then the target jump itself is nothing new
TEST_ERROR = 0.03  # of a tested maximum: one repetition of stated reserve, by Epley
SURELY_WEAK = 0.9  # of the squat that the gate asks: further below it than a lift test of some repetitions may err
HARD_PAIN = 3  # closes the most stressful work of a joint: another reason than strength
_SHUT, _BY_WHAT = r"\b(?:clos|shut|open|gate)", r"\b(?:squat|landings?|lands)\b"
# What is closed and by what, in one sentence and not far from each other.
_IN_SENTENCE = r"(?:[^.]|\.(?=\d))"
_NEAR = f"{_IN_SENTENCE}{{0,120}}"
SAID = re.compile(f"(?:{_SHUT}{_NEAR}{_BY_WHAT}|{_BY_WHAT}{_NEAR}{_SHUT}){_NEAR}", re.I)


def _grown_jumper(read: Read) -> bool:
    """Somebody whose level and age leave the high tier to strength and landing alone."""
    high = read.template.levels[read.athlete.level].highest_tier == "high"
    return high and not read.is_novice and not read.is_young and read.pain(*_JOINTS) < HARD_PAIN


_JOINTS = ("achilles-ankle", "patellar-knee")


def _is_shock(line: Line) -> bool:
    """A drop or a rebound jump of the high tier: not the athlete's own jump."""
    return line.item.tier == "high" and line.item.part == "jump"


def _squat_share(read: Read) -> float | None:
    """The squat against what the gate asks; None where none was tested."""
    kg = read.one_rm_kg("back-squat")
    asked_kg = read.template.gates.high_tier_squat_body_mass * read.athlete.body_mass
    return None if kg is None else kg / asked_kg


def _jumps_hard_already(read: Read) -> bool:
    recent = read.athlete.recent_load
    does = recent is not None and (recent.weekly_high_contacts or 0) >= DOES_HIGH_ALREADY
    off_a_run_up = read.athlete.approach.steps > 0  # a jump from a stand is not of the high tier
    return _grown_jumper(read) and does and off_a_run_up and read.athlete.landing == "holds"


@check(
    "4", "the athlete's own jump closed by a squat, so that the first maximal one is the retest", to=_jumps_hard_already
)
def gate_leaves_the_own_jump(read: Read) -> Iterator[Break]:
    if not any(read.where(lambda line: read.is_target_jump(line, 100), read.load_weeks)):
        does = read.athlete.recent_load and read.athlete.recent_load.weekly_high_contacts
        yield Break(
            f"does {does} high contacts in a usual week, and no week before the retest has one maximal target jump"
        )


def _just_under_the_gate(read: Read) -> bool:
    share = _squat_share(read)
    within = share is not None and 1 - TEST_ERROR <= share < 1
    return within and _grown_jumper(read) and read.athlete.landing == "holds"


@check("4", "shock jumps all closed by a squat that is short by less than the test's error", to=_just_under_the_gate)
def gate_weighs_the_tests_error(read: Read) -> Iterator[Break]:
    if not any(read.where(_is_shock, read.load_weeks)):
        yield Break(
            f"the squat is at {_squat_share(read) or 0:.1%} of what the gate asks, and every shock jump is closed"
        )


def _is_closed(read: Read) -> bool:
    share = _squat_share(read)
    weak = share is None or share < SURELY_WEAK
    allowed = any(word.rule == "high-tier-gate" for word in read.athlete.allow)
    shut = (weak or read.athlete.landing == "not-yet") and not allowed
    return _grown_jumper(read) and shut and not any(read.where(_is_shock, read.load_weeks))


def _says_how_much(read: Read, sentence: str) -> bool:
    """A squat that is short is short by something; landings that do not hold have no figure."""
    share = _squat_share(read)
    return share is None or share >= SURELY_WEAK or any(letter.isdigit() for letter in sentence)


@check("4", "a closed gate that gap and overview do not speak of", to=_is_closed)
def gate_is_said(read: Read) -> Iterator[Break]:
    for name, text in (("the gap", said_words(read)), ("the overview", overview_words(read))):
        said = [found[0] for found in SAID.finditer(text)]
        if not said:
            yield Break(f"no shock jump in any load week, and {name} does not say what is closed and what opens it")
        elif not any(_says_how_much(read, one) for one in said):
            yield Break(f"{name} says that the gate is closed, not by how much: '{said[0]}'")
