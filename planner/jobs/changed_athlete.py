"""A block is used weeks after it was made: what has been edited by hand, and what changed in the athlete's file."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from planner.domain.athlete import Athlete
from planner.domain.block import Block
from planner.domain.findings import Finding, UserError
from planner.files.digest import is_as_solved
from planner.files.document import Loaded
from planner.files.load import load_athlete, load_template
from planner.files.locate import TEMPLATES, locate_template, packaged, shown
from planner.jobs.block_references import follow, is_of_kind


def changed_athlete(loaded: Loaded[Block], folder: Path) -> list[Finding]:
    """A warning where the athlete's file has changed; nothing where it cannot be found.

    Raises UserError, on the line of the athlete's file, for pain that no block is planned over: a card printed over
    it would send the athlete to jump.
    """
    block = loaded.require()
    place = follow(block.athlete.path, folder)
    if not place.is_file():
        return []
    if not is_of_kind(place, "athlete"):
        return [changed(loaded, "athlete", shown(place))]
    athlete = load_athlete(place, shown(place))
    if athlete.sha256 == block.athlete.sha256:
        return []
    if athlete.value is not None:
        refuse_pain_of(athlete, athlete.value, follow(block.template.path, folder))
    return [changed(loaded, "athlete", athlete.path, athlete.value)]


def edited_by_hand(loaded: Loaded[Block]) -> list[Finding]:
    """A warning where the block is not as it was solved; then it has no proof."""
    if is_as_solved(loaded.require()):
        return []
    message = "the block was edited by hand after it was solved"
    hint = f"jumpblock check {loaded.path} lists the rules that it breaks"
    return [loaded.finding(("plan_sha256",), "edited-block", message, hint, level="warning")]


def changed(loaded: Loaded[Block], name: str, path: str, athlete: Athlete | None = None) -> Finding:
    """The warning, on the block's line, that one of its four files has changed.

    ``athlete``: as the file has it now, to say what changed in it.
    """
    message = f"the {name} {'have' if name == 'benchmarks' else 'has'} changed since the block was made: {path}"
    hint = "jumpblock check tests the block against the file as it is now; plan again to include the change"
    if athlete is not None:
        from planner.jobs.athlete_since import changed_lines  # here: an unchanged athlete needs no words of the sheet

        said = changed_lines(loaded.require(), athlete)
        message += f": {said}" if said else ""
    elif name == "athlete":
        hint = f"jumpblock check {path}: the file cannot be read as an athlete's"
    return loaded.finding((name, "sha256"), f"changed-{name}", message, hint, level="warning")


def refuse_pain_of(athlete: Loaded[Athlete], value: Athlete, template: Path) -> None:
    """Raises UserError on the line of the athlete's file; the packaged limits where ``template`` is not there."""
    from planner.jobs.placing import placed  # here: the cards of an unchanged athlete need no estimate and no Problem
    from planner.jobs.sources import USUAL_TEMPLATE
    from planner.problem.not_plannable import refuse_pain

    readable = template.is_file() and is_of_kind(template, "template")
    limits = load_template(template, shown(template)).value if readable else None
    if limits is None:  # how much pain is too much is asked all the same
        limits = load_template(packaged(TEMPLATES) / "blocks" / f"{USUAL_TEMPLATE}.yaml").require()
    try:
        refuse_pain(value, limits)
    except UserError as error:
        raise UserError(placed(error.findings, athlete)) from error


def too_sore(loaded: Loaded[Athlete]) -> list[Finding]:
    """Pain that no block is planned over, as warnings: the file may say so, but plan will refuse it."""
    from planner.jobs.sources import USUAL_TEMPLATE

    athlete = loaded.require()
    try:
        refuse_pain_of(loaded, athlete, locate_template(athlete.template or USUAL_TEMPLATE, loaded.path).path)
    except UserError as error:
        return [replace(one, level="warning") for one in error.findings if one.code == "pain"]
    return []
