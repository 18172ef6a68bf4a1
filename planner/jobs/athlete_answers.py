"""Which answer to a question about a new athlete is right, told in a coach's words by ValueError where it is not."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path
from typing import Annotated, Any

from pydantic import BaseModel, TypeAdapter

from planner.domain.athlete import Fixture, TrainingDay
from planner.domain.measure import LiftTest
from planner.domain.movement_library import Library
from planner.domain.terms import DAYS
from planner.files.load import load_library
from planner.files.locate import locate_library
from planner.files.suggest import movement_hint
from planner.files.typed_sets import joint_named
from planner.jobs.question import Check, one_of, refusal, require_fit

NONE = "-"
NOTHING = ("", NONE, "none", "no", "nowhere", "nothing", "0")  # as a coach may answer where nothing is to be told
WEEK = re.compile(r"(\d+)\D+(\d+)\D+(\d+)\D*")
DAY = re.compile(r"([a-z]{3})[a-z]*[\s:]+(\d+)(?:\s*min\w*)?")
LIFT = re.compile(
    r"([a-z][a-z0-9 -]*?)\s+(\d[^x×]*?)\s*[x×]\s*(\d+)\s*(?:[,;]\s*(\d+)\s*(?:reps?)?\s*(?:left|in reserve))?"
)
SPORT = re.compile(
    r"([a-z]{3})[a-z]*[\s:]+(practice|match|game)\s+(\d+)(?:\s*min\w*)?(?:\s+(\d+)\s*(?:jumps|landings|contacts))?"
)
PAIN = re.compile(r"(?:(left|right)\s+)?([a-z][a-z -]*?)\s+(\d+)(?:\s*(?:/|of)\s*10)?")


def fits_field(model: type[BaseModel], name: str, read: Callable[[str], object] = str) -> Check:
    """Held to the file's own field, in the words of its findings. ``read``: the answer as the file would hold it."""
    field = model.model_fields[name]
    kind: Any = Annotated[(field.annotation, *field.metadata, None)]
    adapter: TypeAdapter[Any] = TypeAdapter(kind)

    def check(answer: str) -> str:
        require_fit(adapter, read(answer))
        return answer

    return check


def steps(answer: str) -> str:
    if not answer.isdecimal() or int(answer) > 20:
        raise ValueError("a whole number from 0 to 20")
    return str(int(answer))


def landing(answer: str) -> str:
    return one_of(("holds", "not-yet"))(
        {"yes": "holds", "y": "holds", "no": "not-yet", "n": "not-yet"}.get(answer, answer)
    )


def split(touches: str) -> list[str]:
    return [one.strip() for one in re.split(r"[,;]\s+", touches)]


def days(answer: str) -> str:
    found = _by_weekday(DAY, split(answer.lower()), "write each day with its minutes: mon 60, wed 60, sat 75")
    for one in found:
        fits_field(TrainingDay, "minutes", int)(one[2])
    return ", ".join(f"{one[1]} {one[2]}" for one in found)


def sport(answer: str) -> str:
    if answer.lower() in NOTHING:
        return NONE
    how = "write day, practice or match, minutes and jumps: tue practice 90 min 60 jumps, sat match 75; Enter: none"
    found = _by_weekday(SPORT, _parts(answer), how)
    for one in found:
        fits_field(Fixture, "minutes", int)(one[3])
        fits_field(Fixture, "contacts", int)(one[4] or "0")
    return ", ".join(one[0] for one in found)


def _by_weekday(pattern: re.Pattern[str], parts: list[str], how: str) -> list[re.Match[str]]:
    """The parts as the pattern reads them, each with a weekday first; refuses with ``how`` to write them."""
    found = [one for part in parts if (one := pattern.fullmatch(part)) is not None and one[1] in DAYS]
    if len(found) < len(parts):
        raise ValueError(how)
    return found


def pain(answer: str) -> str:
    """With the joint by the name that the file has for it."""
    if answer.lower() in NOTHING:
        return NONE
    told = [_pain(one) for one in _parts(answer)]
    where = [one.rpartition(" ")[0] for one in told]
    twice = next((one for one in where if where.count(one) > 1), None)
    if twice is not None:
        raise ValueError(f"{twice} is given twice: once is enough, with the worse of the two")
    return ", ".join(told)


def _parts(answer: str) -> list[str]:
    return [one.strip() for one in re.split(r"[,;]", answer.lower())]


def _pain(answer: str) -> str:
    found = PAIN.fullmatch(re.sub(r"^([a-z][a-z -]*?) (left|right)\b", r"\2 \1", answer))
    if found is None or int(found[3]) > 10:
        raise ValueError("write side, joint and 0 to 10: left knee 2, low back 1; Enter: nowhere")
    joint = joint_named(re.sub(r"\s+", "-", found[2].strip()))
    return " ".join(filter(None, (found[1], joint, found[3])))


def lift(near: Path, answer: str) -> str:
    """With the movement by its id: the trade's name will do where only one movement has it."""
    found = LIFT.fullmatch(answer.lower())
    if answer in ("", NONE):
        return NONE
    if found is None:
        raise ValueError("write lift, load, reps and how many were left: back-squat 100 kg x 4, 2 left")
    fits_field(LiftTest, "load")(found[2].strip())
    library, name = library_near(near), found[1].strip()
    called = library.called(name)
    if len(called) != 1:
        raise refusal(f"'{name}' is not a known movement", movement_hint(name, library))
    return f"{called[0]} {answer.lower()[found.end(1) :].strip()}"


def week(answer: str) -> str:
    if answer not in ("", NONE) and WEEK.fullmatch(answer) is None:
        raise ValueError("three whole numbers: jumps, sprints and sets of a usual week, such as 120, 10, 40")
    return answer or NONE


def library_near(near: Path) -> Library:
    at = locate_library(near=near)
    return load_library(at.path, at.display).require()
