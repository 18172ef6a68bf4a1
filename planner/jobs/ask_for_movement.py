"""What ``library add`` asks for a new movement: one thing after the other, each answer checked at once."""

from __future__ import annotations

import shlex
from dataclasses import replace
from typing import Any

from planner.domain.movement_library import Library
from planner.files.edit_fields import Assignment, annotation_at, field_of, read_assignments, words_allowed
from planner.files.edit_library import find_movement
from planner.files.locate import Located
from planner.files.new_movement import Wish, new_entry
from planner.jobs import movement_answers as answers
from planner.jobs.question import Ask

_EVERY = ("part", "patterns", "legs", "level", "equipment", "qualities", "stress")
_BY_KIND = {
    "jump": ("jump.direction", "jump.approach", "jump.tier", "jump.contacts_per_rep"),
    "sprint": ("sprint.sort", "sprint.distance"),
}


def as_command(wish: Wish) -> str:
    """The command that says all of it at once: for whoever wants to change one answer and not give them all again."""
    options = [("--like", wish.like), ("--name", wish.name), ("--family", wish.family)]
    words = [str(wish.id), *(word for name, value in options if value for word in (name, value))]
    return shlex.join(["jumpblock", "library", "add", *words, *(word for one in wish.fields for word in one.written)])


def complete_by_asking(wish: Wish, library: Library, at: Located, ask: Ask) -> Wish:
    """The wish with every field said that a movement needs, and the ones that a coach would want.

    ``library`` is the one at ``at``, and has no errors.
    """
    name = wish.name or ask("Name, as on the card", "", answers.filled)
    movement_id = wish.id or ask("Id for files", answers.slug(name), answers.new_id(library))
    known = answers.known_or_none(library)
    like = wish.like or ask("Most like which movement? (id; Enter: none)", answers.CLEAR, known)
    wish = replace(wish, id=movement_id, name=name, like=None if like == answers.CLEAR else like)
    if wish.family is None:
        usual = library.families[wish.like] if wish.like else ""
        wish = replace(wish, family=ask("Family (a new one makes a new file)", usual, answers.family))
    return replace(wish, fields=(*wish.fields, *_ask_fields(wish, library, at, ask)))


def _ask_fields(wish: Wish, library: Library, at: Located, ask: Ask) -> list[Assignment]:
    now: dict[str, Any] = new_entry(wish, find_movement(at, wish.like) if wish.like else None)
    said = {".".join(map(str, one.path)) for one in wish.fields}
    words: list[str] = []

    def put(field: str, hint: str = "") -> str:
        if field in said:
            return answers.shown(now, field)
        answer = ask(_question(field, hint), answers.shown(now, field), answers.of_field(field, library))
        words.append(f"{field}={'' if answer == answers.CLEAR else answer}")
        return answer

    kind = put("kind")
    for field in (*_EVERY, *_BY_KIND.get(kind, ())):
        put(field, ", ".join(library.equipment) if field == "equipment" else "")
    schemes = sorted({m.dose.scheme for m in library if m.kind == kind})
    put("dose.scheme", f"of this kind: {', '.join(schemes)}")
    load = put("dose.load") if kind in ("lift", "hold") else "none"
    if load == "percent":
        put("dose.of")
    if load != "none":
        put("dose.implement")
    for field in ("dose.set_time", "dose.rest", "easier", "harder"):
        put(field)
    for field in ("cues", "cautions"):
        words += _sentences(field, now, ask) if field not in said else []
    put("source")
    kept = [word for word in words if not word.endswith("=") or answers.shown(now, word[:-1]) != answers.CLEAR]
    return read_assignments(kept)


def _sentences(field: str, now: dict[str, Any], ask: Ask) -> list[str]:
    """One to three cues, or up to five cautions; Enter after the last. Each is offered as the copy has it."""
    there = [str(text) for text in now.get(field, ())]
    words: list[str] = []
    most, least = (3, 1) if field == "cues" else (5, 0)
    for index in range(most):
        default = there[index] if index < len(there) else answers.CLEAR
        question = f"{field[:-1].capitalize()} {index + 1} ({answers.CLEAR}: no more)"
        answer = ask(question, default, answers.filled if index < least else answers.anything)
        if answer == answers.CLEAR and index >= least:
            break
        words.append(f"{field}={answer}")
    return words or [f"{field}="]


def _question(field: str, hint: str) -> str:
    shown = hint or ", ".join(words_allowed(annotation_at(field)) or ())
    known = field_of(field)
    return f"\n{known.description if known else ''}{f' ({shown})' if shown else ''}\n{field}"
