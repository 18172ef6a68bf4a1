"""``jumpblock new``: a short athlete's file from answers, and its force gap."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from planner.cli.output import Command, note, show_findings
from planner.cli.terminal_questions import ask, at_terminal

if TYPE_CHECKING:
    from collections.abc import Mapping

    from planner.jobs.new_athlete import Question

_OPTIONS = {
    "name": "Name, as on the cards.",
    "born": "Birth date, year-month-day.",
    "mass": "Body mass, such as 81 kg or 180 lb; cards are printed in its units.",
    "stature": "Height, such as 1.85 m or 6'1\".",
    "reach": "Standing reach, one hand, heels down.",
    "take-off": "one-leg left, one-leg right or two-leg.",
    "steps": "Steps of the run-up; 0 from a stand.",
    "touches": "Every trial of the touch test, such as '3.02 m, 3.05 m'.",
    "tested": "Day of the test, year-month-day.",
    "target": "Mark to touch after the block.",
    "level": "novice, intermediate or advanced.",
    "landing": "holds or not-yet.",
    "pain": "Where it hurts under load, 0 to 10, such as 'left knee 2' [default: nowhere].",
    "days": "Gym days with minutes, such as 'mon 60, wed 60, sat 75'.",
    "sport": "Practices and matches of a week, such as 'tue practice 90 min 60 jumps, sat match 75' [default: none].",
    "gym": "A usual gym, such as full-gym or garage; templates/gyms has them all.",
    "lift": "A hard set, such as 'back-squat 100 kg x 4, 2 left'; may be given more than once [default: none].",
    "week": "Usual week, sport included: jumps, sprints and sets, such as '120, 10, 40' [default: not known].",
}


@click.command("new", cls=Command, short_help="Write a new athlete's file by questions.")
@click.argument("athlete", metavar="ATHLETE.yaml", type=click.Path(path_type=Path))
@click.pass_context
def command(ctx: click.Context, /, athlete: Path, **said: Any) -> None:
    """Write a short file of a new athlete, then show the gap.

    On a terminal it asks for what no option says, one thing at a time. The file is yours to change: it has about forty
    lines, with notes on what may be added.
    """
    from planner.cli.gap import command as gap
    from planner.jobs.new_athlete import file_of, questions, write_new

    if athlete.exists():
        write_new(athlete, "")  # refuses, before anything is asked
    answers: dict[str, str] = {}
    for one in questions(athlete):
        given = said[one.key.replace("-", "_")]
        if given in (None, ()) and at_terminal():
            answers[one.key] = "\n".join(_asked(one, answers))
            continue
        if given is None and not one.enter:
            raise click.UsageError(f"--{one.key} is missing (or run this on a terminal to be asked)")
        try:
            told = [one.check(text.strip()) for text in _texts(given, one.enter)]
        except ValueError as error:
            raise click.UsageError(f"--{one.key}: {error}") from None
        answers[one.key] = "\n".join([text for text in told if text != one.enter] or told[:1])
    show_findings(write_new(athlete, file_of(answers, athlete)))
    note(f"Written: {athlete}")
    ctx.invoke(gap, athletes=(str(athlete),), full=False, as_json=False, library=None, templates=None)


def _texts(given: str | tuple[str, ...] | None, enter: str) -> tuple[str, ...]:
    return (given,) if isinstance(given, str) else given or (enter,)


def _asked(question: Question, said: Mapping[str, str]) -> list[str]:
    """The answer; of a question that takes several, one after the other until Enter."""
    answers = [ask(question.asked(said), question.enter, question.check)]
    while question.another and answers[-1] != question.enter:
        answers.append(ask(question.another, question.enter, question.check))
    return answers[:-1] or answers


for name, words in _OPTIONS.items():
    command = click.option(f"--{name}", help=words, multiple=name == "lift")(command)
