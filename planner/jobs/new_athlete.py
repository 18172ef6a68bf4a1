"""A short athlete's file from a coach's answers, each checked as the line it becomes, and the whole read back."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from typing import Annotated, Any, cast

from pydantic import BaseModel, TypeAdapter, ValidationError

from planner.domain.athlete import Athlete, Target
from planner.domain.findings import Finding, UserError, has_errors
from planner.domain.measure import LiftTest, TouchTest
from planner.domain.movement_library import Library
from planner.domain.terms import DAYS
from planner.files.atomic import write_atomically
from planner.files.complaints import describe
from planner.files.document import Loaded
from planner.files.dump import one_scalar
from planner.files.edit_values import flow_text
from planner.files.load import load_athlete, load_bytes, load_library, load_usual_gyms, then
from planner.files.locate import locate_library, locate_usual_gyms
from planner.files.references import athlete_references, gym_references
from planner.files.suggest import did_you_mean, movement_hint
from planner.files.tree import ListNode, find
from planner.files.values import iso_date, to_data
from planner.jobs.safe_output import make_folder

Ask = Callable[[str, str, Callable[[str], str]], str]
NONE = "-"
_WEEK = re.compile(r"(\d+)\D+(\d+)\D+(\d+)\D*")
_DAY = re.compile(r"([a-z]{3})[a-z]*[\s:]+(\d+)(?:\s*min\w*)?")
_LIFT = re.compile(
    r"([a-z][a-z0-9 -]*?)\s+(\d[^x×]*?)\s*[x×]\s*(\d+)\s*(?:[,;]\s*(\d+)\s*(?:reps?)?\s*(?:left|in reserve))?"
)
_HOW = "mark on a wall or a vane, read by eye"


@dataclass(frozen=True)
class Question:
    """``key``: of the answer, and the option's name. ``enter``: what Enter gives; empty where an answer is needed.

    ``words`` may have a ``{}`` for one of the two ``examples``: in kilograms and metres, in pounds and inches.
    ``another``: what is asked after each answer where there may be several; they are lines of one text.
    """

    key: str
    words: str
    check: Callable[[str], str]
    enter: str = ""
    examples: tuple[str, str] = ("", "")
    another: str = ""

    def asked(self, said: Mapping[str, str]) -> str:
        """The words in the units of the body mass, which is asked before any other figure."""
        return self.words.format(self.examples[_in_pounds(said)])


def questions(near: Path) -> list[Question]:
    """What a new file needs, in the order of a first talk with an athlete."""
    gyms = usual_gyms(near)
    return [
        Question("name", "Name", _field(Athlete, "name")),
        Question("born", "Born (year-month-day)", _date),
        Question("mass", "Body mass, with kg or lb", _field(Athlete, "body_mass")),
        Question("stature", "Height, such as {}", _field(Athlete, "stature"), examples=("1.85 m", "6'1\"")),
        Question("reach", "Standing reach, one hand, heels down", _field(Athlete, "standing_reach")),
        Question("take-off", "Takes off from (one-leg left, one-leg right, two-leg)", _field(Athlete, "take_off")),
        Question("steps", "Steps of the run-up (0: from a stand)", _steps),
        Question(
            "touches",
            "Touches in the test, every trial, such as {}",
            _field(TouchTest, "trials", _split),
            examples=("3.02 m, 3.05 m", "118 1/2 in, 119 in"),
        ),
        Question("tested", "Day of the test (year-month-day)", _date),
        Question("target", "Mark to touch after the block", _field(Target, "touch")),
        Question("level", "Level (novice, intermediate, advanced)", _field(Athlete, "level")),
        Question(
            "landing",
            "Lands from a {} drop quietly and balanced (holds, not-yet)",
            _landing,
            examples=("30 cm", "12 in"),
        ),
        Question("days", "Gym days with minutes, such as mon 60, wed 60, sat 75", _days),
        Question("gym", _to_choose("Gym", {key: name for key, (name, _) in gyms.items()}), _one_of(tuple(gyms))),
        Question(
            "lift",
            "A hard set of a lift, such as back-squat {} x 4, 2 left (Enter: none)",
            partial(_lift, near),
            NONE,
            ("100 kg", "225 lb"),
            "Another lift (Enter: no more)",
        ),
        Question("week", "Usual week: jumps, sprints, sets, such as 120, 10, 40 (Enter: not known)", _week, NONE),
    ]


def _to_choose(question: str, choices: Mapping[str, str]) -> str:
    """The choices one a line, what each is behind it, above the question."""
    widest = max(map(len, choices))
    lines = [f"  {key:<{widest}}  {what}" for key, what in choices.items()]
    return "\n".join(["", *lines, question]).replace("{", "{{").replace("}", "}}")  # a name may hold braces


def _in_pounds(said: Mapping[str, str]) -> bool:
    return bool(re.search(r"lb|pound", said.get("mass", ""), re.IGNORECASE))


def usual_gyms(near: Path) -> dict[str, tuple[str, Any]]:
    """The gyms to choose from: name and equipment as the file has it, by id."""
    at = locate_usual_gyms(near)
    loaded = then(load_usual_gyms(at.path, at.display), lambda one: gym_references(one, _library(near)))
    listed = find(loaded.documents[0].root, ("gyms",)) if loaded.value is not None else None
    loaded.require()
    assert isinstance(listed, ListNode)
    gyms: list[Any] = [to_data(one)[0] for one in listed.items]
    return {gym["id"]: (gym["name"], gym["equipment"]) for gym in gyms}


def file_of(said: Mapping[str, str], near: Path) -> str:
    """The text of the file. ``said``: every answer of ``questions`` by its key, checked."""
    imperial, metric = "{mass: lb, length: in, paper: letter, dates: month-first}", "{mass: kg, length: cm, paper: a4}"
    print_as = imperial if _in_pounds(said) else metric
    run_up = "true" if int(said["steps"]) else "false"
    lines = [
        "file: athlete/1",
        "# Lines with # are notes for you; templates/athletes/adult-one-leg-jumper.yaml explains every line there is.",
        f"name: {_text(said['name'])}",
        f"birth_date: {said['born']}",
        f"body_mass: {_text(said['mass'])}",
        f"stature: {_text(said['stature'])}",
        f"standing_reach: {_text(said['reach'])}",
        "# tip_toe_reach: the same on tip-toe; with it the force is surer",
        f"take_off: {said['take-off']}",
        f"approach: {{steps: {said['steps']}}}",
        f"level: {said['level']}",
        f"landing: {said['landing']} # holds or not-yet: with not-yet there are no drop jumps",
        "# joints: [{joint: patellar-knee, side: left, pain: 2}]  pain 0 to 10, where there is any",
        "training:",
        "  days:",
        *(f"    - {{day: {day}, minutes: {minutes}}}" for day, minutes in _DAY.findall(said["days"])),
        "# practices: [{day: tue, minutes: 90, hardness: medium, contacts: 60}]  and matches, where there are any",
        "equipment: # delete what the gym does not have",
        *(f"  {key}: {flow_text(value)}" for key, value in usual_gyms(near)[said["gym"]][1].items()),
        *_recent_load(said["week"]),
        f"target: {{touch: {_text(said['target'])}, method: touch}}",
        "tests: # each with its day and every trial; more tests tell more",
        "  - kind: touch",
        f"    date: {said['tested']}",
        f"    method: {_HOW}",
        f"    take_off: {said['take-off']}",
        f"    run_up: {run_up}",
        f"    trials: [{', '.join(_text(one) for one in _split(said['touches']))}]",
        *_lift_lines(said),
        f"print_as: {print_as}",
    ]
    return "\n".join(lines) + "\n"


def write_new(path: Path, text: str) -> list[Finding]:
    """Write the file where none is yet and return what is to be said of it. UserError where it does not read back."""
    if path.exists() or path.is_symlink():
        message = "this already exists; it is not overwritten"
        raise UserError([Finding(path.as_posix(), 0, 0, "already-there", message, "name another file")])
    loaded = cast("Loaded[Athlete]", load_bytes(text.encode("utf-8"), path.as_posix(), ("athlete/1",)))
    loaded = then(loaded, lambda one: athlete_references(one, _library(path)))
    if has_errors(list(loaded.findings)):
        raise UserError(list(loaded.findings))
    make_folder(path.parent)
    write_atomically(path, text.encode("utf-8"), "")
    return list(load_athlete(path).findings)


def _library(near: Path) -> Library:
    at = locate_library(near=near)
    return load_library(at.path, at.display).require()


def _recent_load(week: str) -> list[str]:
    if week == NONE:
        return ["# recent_load: {weekly_contacts: , weekly_sprints: , weekly_working_sets: }  a usual week, for week 1"]
    contacts, sprints, sets = _WEEK.fullmatch(week).groups()  # type: ignore[union-attr]
    figures = f"{{weekly_contacts: {contacts}, weekly_sprints: {sprints}, weekly_working_sets: {sets}}}"
    return [f"recent_load: {figures} # a usual week of the last four; week 1 grows from it"]


def _lift_lines(said: Mapping[str, str]) -> list[str]:
    if said["lift"] == NONE:
        return ["  # - {kind: lift, date: , movement: back-squat, load: , reps: , reps_in_reserve: }  a hard set"]
    return [_lift_line(one, said["tested"]) for one in said["lift"].splitlines()]


def _lift_line(lift: str, day: str) -> str:
    name, load, reps, left = _LIFT.fullmatch(lift).groups()  # type: ignore[union-attr]
    reserve = f", reps_in_reserve: {left}" if left is not None else ""
    movement = re.sub(r"\s+", "-", name.strip())
    set_done = f"load: {_text(load.strip())}, reps: {reps}{reserve}"
    return f"  - {{kind: lift, date: {day}, movement: {movement}, {set_done}}}"


def _field(model: type[BaseModel], name: str, read: Callable[[str], object] = str) -> Callable[[str], str]:
    """Held to the file's own field, in the words of its findings. ``read``: the answer as the file would hold it."""
    field = model.model_fields[name]
    kind: Any = Annotated[(field.annotation, *field.metadata, None)]
    adapter: TypeAdapter[Any] = TypeAdapter(kind)

    def check(answer: str) -> str:
        try:
            adapter.validate_python(read(answer))
        except ValidationError as error:
            complaint = describe(dict(error.errors()[0]), None, "")
            raise ValueError("; ".join(filter(None, (complaint.message, complaint.hint)))) from None
        return answer

    return check


def _one_of(words: tuple[str, ...]) -> Callable[[str], str]:
    def check(answer: str) -> str:
        if answer not in words:
            raise ValueError(f"choose one: {', '.join(words)}" if not answer else did_you_mean(answer, words))
        return answer

    return check


def _date(answer: str) -> str:
    if iso_date(answer) is None:
        raise ValueError("write year-month-day, such as 2001-05-17")
    return answer


def _steps(answer: str) -> str:
    if not answer.isdecimal() or int(answer) > 20:
        raise ValueError("a whole number from 0 to 20")
    return str(int(answer))


def _landing(answer: str) -> str:
    return _one_of(("holds", "not-yet"))(
        {"yes": "holds", "y": "holds", "no": "not-yet", "n": "not-yet"}.get(answer, answer)
    )


def _split(touches: str) -> list[str]:
    return [one.strip() for one in re.split(r"[,;]\s+", touches)]


def _days(answer: str) -> str:
    days = [_DAY.fullmatch(one) for one in _split(answer.lower())]
    if not all(one is not None and one[1] in DAYS for one in days):
        raise ValueError("write each day with its minutes: mon 60, wed 60, sat 75")
    return ", ".join(f"{one[1]} {one[2]}" for one in days if one is not None)


def _lift(near: Path, answer: str) -> str:
    """With the movement by its id: the trade's name will do where only one movement has it."""
    found = _LIFT.fullmatch(answer.lower())
    if answer in ("", NONE):
        return NONE
    if found is None:
        raise ValueError("write lift, load, reps and how many were left: back-squat 100 kg x 4, 2 left")
    _field(LiftTest, "load")(found[2].strip())
    library, name = _library(near), found[1].strip()
    called = library.called(name)
    if len(called) != 1:
        raise ValueError(f"'{name}' is not a known movement; {movement_hint(name, library)}".removesuffix("; "))
    return f"{called[0]} {answer.lower()[found.end(1) :].strip()}"


def _week(answer: str) -> str:
    if answer not in ("", NONE) and _WEEK.fullmatch(answer) is None:
        raise ValueError("three whole numbers: jumps, sprints and sets of a usual week, such as 120, 10, 40")
    return answer or NONE


def _text(text: str) -> str:
    return one_scalar(text, flow=True)
