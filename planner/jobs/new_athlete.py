"""A short athlete's file from a coach's answers, each checked as the line it becomes, and the whole read back."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from typing import Any, cast

from planner.domain.athlete import Athlete, Target
from planner.domain.findings import Finding, UserError, has_errors
from planner.domain.measure import TouchTest
from planner.files.atomic import write_atomically
from planner.files.document import Loaded
from planner.files.dump import one_scalar
from planner.files.edit_values import flow_text
from planner.files.load import load_athlete, load_bytes, load_usual_gyms, then
from planner.files.locate import locate_usual_gyms
from planner.files.references import athlete_references, gym_references
from planner.files.tree import ListNode, find
from planner.files.values import to_data
from planner.jobs import athlete_answers as answers
from planner.jobs.question import Check, a_day, one_of
from planner.jobs.safe_output import make_folder

_HOW = "mark on a wall or a vane, read by eye"


@dataclass(frozen=True)
class Question:
    """``key``: of the answer, and the option's name. ``enter``: what Enter gives; empty where an answer is needed.

    ``words`` may have a ``{}`` for one of the two ``examples``: in kilograms and metres, in pounds and inches.
    ``another``: what is asked after each answer where there may be several; they are lines of one text.
    """

    key: str
    words: str
    check: Check
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
        Question("name", "Name", answers.fits_field(Athlete, "name")),
        Question("born", "Born (year-month-day)", a_day),
        Question("mass", "Body mass, with kg or lb", answers.fits_field(Athlete, "body_mass")),
        Question("stature", "Height, such as {}", answers.fits_field(Athlete, "stature"), examples=("1.85 m", "6'1\"")),
        Question("reach", "Standing reach, one hand, heels down", answers.fits_field(Athlete, "standing_reach")),
        Question(
            "take-off", "Takes off from (one-leg left, one-leg right, two-leg)", answers.fits_field(Athlete, "take_off")
        ),
        Question("steps", "Steps of the run-up (0: from a stand)", answers.steps),
        Question(
            "touches",
            "Touches in the test, every trial, such as {}",
            answers.fits_field(TouchTest, "trials", answers.split),
            examples=("3.02 m, 3.05 m", "118 1/2 in, 119 in"),
        ),
        Question("tested", "Day of the test (year-month-day)", a_day),
        Question("target", "Mark to touch after the block", answers.fits_field(Target, "touch")),
        Question("level", "Level (novice, intermediate, advanced)", answers.fits_field(Athlete, "level")),
        Question(
            "landing",
            "Lands from a {} drop quietly and balanced (holds, not-yet)",
            answers.landing,
            examples=("30 cm", "12 in"),
        ),
        Question(
            "pain",
            "Where it hurts under load, 0 to 10, such as left knee 2 (Enter: nowhere)",
            answers.pain,
            answers.NONE,
        ),
        Question("days", "Gym days with minutes, such as mon 60, wed 60, sat 75", answers.days),
        Question(
            "sport",
            "Practices and matches of a week, such as tue practice 90 min 60 jumps, sat match 75 (Enter: none)",
            answers.sport,
            answers.NONE,
        ),
        Question("gym", _to_choose("Gym", {key: name for key, (name, _) in gyms.items()}), one_of(tuple(gyms))),
        Question(
            "lift",
            "A hard set of a lift, such as back-squat {} x 4, 2 left (Enter: none)",
            partial(answers.lift, near),
            answers.NONE,
            ("100 kg", "225 lb"),
            "Another lift (Enter: no more)",
        ),
        Question(
            "week",
            "Usual week, sport included: jumps, sprints, sets, such as 120, 10, 40 (Enter: not known)",
            answers.week,
            answers.NONE,
        ),
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
    loaded = then(load_usual_gyms(at.path, at.display), lambda one: gym_references(one, answers.library_near(near)))
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
        *_pain_lines(said["pain"]),
        "training:",
        "  days:",
        *(f"    - {{day: {day}, minutes: {minutes}}}" for day, minutes in answers.DAY.findall(said["days"])),
        *_sport_lines(said["sport"]),
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
        f"    trials: [{', '.join(_text(one) for one in answers.split(said['touches']))}]",
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
    loaded = then(loaded, lambda one: athlete_references(one, answers.library_near(path)))
    if has_errors(loaded.findings):
        raise UserError(list(loaded.findings))
    make_folder(path.parent)
    write_atomically(path, text.encode("utf-8"), "")
    return list(load_athlete(path).findings)


def _recent_load(week: str) -> list[str]:
    if week == answers.NONE:
        return ["# recent_load: {weekly_contacts: , weekly_sprints: , weekly_working_sets: }  a usual week, for week 1"]
    contacts, sprints, sets = answers.WEEK.fullmatch(week).groups()  # type: ignore[union-attr]
    figures = f"{{weekly_contacts: {contacts}, weekly_sprints: {sprints}, weekly_working_sets: {sets}}}"
    return [f"recent_load: {figures} # a usual week of the last four; week 1 grows from it"]


def _pain_lines(pain: str) -> list[str]:
    if pain == answers.NONE:
        return ["# joints: [{joint: patellar-knee, side: left, pain: 2}]  pain 0 to 10, where there is any"]
    return ["joints: # pain 0 to 10, while loading it", *(_pain_line(one) for one in answers.split(pain))]


def _pain_line(told: str) -> str:
    side, joint, pain = answers.PAIN.fullmatch(told).groups()  # type: ignore[union-attr]
    return f"  - {{joint: {joint}, {f'side: {side}, ' if side else ''}pain: {pain}}}"


def _sport_lines(sport: str) -> list[str]:
    if sport == answers.NONE:
        return [
            "# practices: [{day: tue, minutes: 90, hardness: medium, contacts: 60}]  and matches, where there are any"
        ]
    told = [answers.SPORT.fullmatch(one) for one in answers.split(sport)]
    practices = [_sport_line(one, "medium") for one in told if one is not None and one[2] == "practice"]
    matches = [_sport_line(one, "hard") for one in told if one is not None and one[2] != "practice"]
    said = "# hardness: light, medium or hard; contacts: landings in it"
    return [
        *([f"practices: {said}", *practices] if practices else []),
        *([f"matches: {said}", *matches] if matches else []),
    ]


def _sport_line(told: re.Match[str], hardness: str) -> str:
    unknown = "" if told[4] else " # its jumps are not known: contacts is to be filled in"
    return f"  - {{day: {told[1]}, minutes: {told[3]}, hardness: {hardness}, contacts: {told[4] or 0}}}{unknown}"


def _lift_lines(said: Mapping[str, str]) -> list[str]:
    if said["lift"] == answers.NONE:
        return ["  # - {kind: lift, date: , movement: back-squat, load: , reps: , reps_in_reserve: }  a hard set"]
    return [_lift_line(one, said["tested"]) for one in said["lift"].splitlines()]


def _lift_line(lift: str, day: str) -> str:
    name, load, reps, left = answers.LIFT.fullmatch(lift).groups()  # type: ignore[union-attr]
    reserve = f", reps_in_reserve: {left}" if left is not None else ""
    movement = re.sub(r"\s+", "-", name.strip())
    set_done = f"load: {_text(load.strip())}, reps: {reps}{reserve}"
    return f"  - {{kind: lift, date: {day}, movement: {movement}, {set_done}}}"


def _text(text: str) -> str:
    return one_scalar(text, flow=True)
