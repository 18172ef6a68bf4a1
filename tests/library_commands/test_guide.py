"""The questions on a terminal: Enter copies the movement asked for, and a wrong answer is asked for again."""

from __future__ import annotations

import shlex
from collections.abc import Callable

import pytest

from planner.domain.movement import Movement
from planner.files.load import load_library
from planner.files.new_movement import Wish, place
from planner.jobs.ask_for_movement import as_command, complete_by_asking
from planner.jobs.look_up_library import own_library, read_library

EMPTY = Wish(None, None, None, None, ())


class Coach:
    """Answers by the last word of the question, else with Enter; keeps what was refused."""

    def __init__(self, answers: dict[str, list[str]]) -> None:
        self.answers, self.refusals = answers, []  # type: ignore[var-annotated]

    def __call__(self, question: str, default: str, check: Callable[[str], str]) -> str:
        key = question.splitlines()[-1].partition(" (")[0]
        while True:
            answer = self.answers[key].pop(0) if self.answers.get(key) else default
            try:
                return check(answer)
            except ValueError as error:
                self.refusals.append(str(error))
                assert self.answers.get(key), f"{question}: {error}"


def added(answers: dict[str, list[str]]) -> tuple[Movement, list[str]]:
    at, person = own_library(None), Coach(answers)
    wish = complete_by_asking(EMPTY, read_library(at), at, person)
    change = place(wish, at)
    assert change.new_errors == []
    movement = change.loaded.require()[str(wish.id)]
    return movement, person.refusals


@pytest.mark.parametrize("like", ["goblet-squat", "acceleration-20", "side-plank"])
def test_enter_all_the_way_copies(coach, like: str) -> None:
    new, refusals = added({"Name, as on the card": ["Brand-new thing"], "Most like which movement?": [like]})
    model = load_library("exercise_library").require()[like]
    left_out = {"id": ..., "name": ..., "also": ..., "easier": ..., "harder": ..., "source": ...}
    assert (new.id, refusals) == ("brand-new-thing", [])
    assert new.model_dump(exclude=set(left_out)) == model.model_dump(exclude=set(left_out))


def test_from_nothing_and_with_slips(coach) -> None:
    new, refusals = added(
        {
            "Name, as on the card": ["", "Hop over a line"],
            "Id for files": ["Line Hop", "pogo", "line-hop"],
            "Most like which movement?": ["poggo", "-"],
            "Family": ["line hops", "line-hops"],
            "kind": ["jmp", "jump"],
            "part": ["landing"],
            "legs": ["both"],
            "level": ["", "novice"],
            "qualities": ["calf-ancle: 2", "calf-ankle: 2, speed-exposure: 1"],
            "stress": ["achilles-ankle: 5", "achilles-ankle: 1"],
            "jump.direction": ["lateral"],
            "jump.approach": ["rebound"],
            "jump.tier": ["low"],
            "jump.contacts_per_rep": ["1"],
            "dose.scheme": ["low-tier-jump"],
            "dose.set_time": ["15", "15 s"],
            "dose.rest": ["60 s"],
            "equipment": ["mats", "-"],
            "easier": ["poggo", "pogo"],
            "Cue 1": ["Quick feet"],
        }
    )
    assert (new.kind, new.level, new.cues, new.easier) == ("jump", "novice", ("Quick feet",), "pogo")
    assert new.jump is not None and new.jump.direction == "lateral"
    assert len(refusals) == 12, refusals


def test_the_answers_can_be_given_again_as_one_command(coach, run) -> None:
    answers = {
        "Name, as on the card": ["It's a thing"],
        "Most like which movement?": ["goblet-squat"],
        "Cue 1": ["Sit: tall"],
    }
    at = own_library(None)
    wish = complete_by_asking(EMPTY, read_library(at), at, Coach(answers))
    words = shlex.split(as_command(wish))
    assert words[:3] == ["jumpblock", "library", "add"]
    assert run(*words[1:]).code == 0
    added_now = load_library("exercise_library").require()["it-s-a-thing"]
    assert (added_now.name, added_now.cues[0]) == ("It's a thing", "Sit: tall")
