"""The questions of ``jumpblock library add`` on a terminal: one at a time, each answer checked at once."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Any

import click

from planner.cli.output import note

if TYPE_CHECKING:
    from planner.domain.library import Library
    from planner.files.edit_fields import Assignment
    from planner.files.locate import Located
    from planner.files.new_movement import Wish

# A question: its words, the answer that Enter gives, and what turns an answer into one that is right (or refuses it).
Ask = Callable[[str, str, Callable[[str], str]], str]
_EVERY = ("part", "patterns", "legs", "level", "equipment", "qualities", "stress")
_BY_KIND = {
    "jump": ("jump.direction", "jump.approach", "jump.tier", "jump.contacts_per_rep"),
    "sprint": ("sprint.sort", "sprint.distance"),
}
_CLEAR = "-"


def ask_at_terminal(question: str, default: str, check: Callable[[str], str]) -> str:
    """One question on stderr; asked again until the answer is right. Enter takes what stands in brackets."""

    def proc(answer: str) -> str:
        try:
            return check(answer.strip())
        except ValueError as error:
            raise click.UsageError(str(error)) from None

    found: str = click.prompt(question, default=default, show_default=bool(default), value_proc=proc, err=True)
    return found


def as_command(wish: Wish) -> str:
    """The command that says all of it at once: for whoever wants to change one answer and not give them all again."""
    import shlex

    options = [("--like", wish.like), ("--name", wish.name), ("--family", wish.family)]
    words = [str(wish.id), *(word for name, value in options if value for word in (name, value))]
    return shlex.join(["jumpblock", "library", "add", *words, *(word for one in wish.fields for word in one.written)])


def complete_by_asking(wish: Wish, at: Located, ask: Ask = ask_at_terminal) -> Wish:
    """The wish with every field said that a movement needs, and the ones that a coach would want."""
    from planner.files.load import load_library

    library = load_library(at.path, at.display).require()
    note("Enter keeps what stands in brackets; a - takes an optional field out; Ctrl-C leaves without writing.")
    name = wish.name or ask("Name, as on the card", "", _filled)
    movement_id = wish.id or ask("Id for files", _slug(name), _new_id(library))
    like = wish.like or ask("Most like which movement? (id; Enter: none)", _CLEAR, _known_or_none(library))
    wish = replace(wish, id=movement_id, name=name, like=None if like == _CLEAR else like)
    if wish.family is None:
        usual = library.families[wish.like] if wish.like else ""
        wish = replace(wish, family=ask("Family (a new one makes a new file)", usual, _field_check("family")))
    return replace(wish, fields=(*wish.fields, *_ask_fields(wish, at, library, ask)))


def _ask_fields(wish: Wish, at: Located, library: Library, ask: Ask) -> list[Assignment]:
    from planner.files.edit_fields import read_assignments
    from planner.files.edit_library import find_movement
    from planner.files.new_movement import new_entry

    model = find_movement(at, wish.like) if wish.like else None
    now: dict[str, Any] = new_entry(wish, model)
    said = {".".join(map(str, one.path)) for one in wish.fields}
    words: list[str] = []

    def put(field: str, hint: str = "") -> str:
        if field in said:
            return str(_shown(now, field))
        answer = ask(_question(field, hint), _shown(now, field), _in_library(field, _field_check(field), library))
        words.append(f"{field}={'' if answer == _CLEAR else answer}")
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
    kept = [word for word in words if not word.endswith("=") or _shown(now, word[:-1]) != _CLEAR]
    return [one for one in read_assignments(kept)]


def _sentences(field: str, now: dict[str, Any], ask: Ask) -> list[str]:
    """Up to three cues, or as many cautions; Enter after the last. The first one may be the copy's own."""
    there = [str(text) for text in now.get(field, ())]
    words: list[str] = []
    most, least = (3, 1) if field == "cues" else (5, 0)
    for index in range(most):
        default = there[index] if index < len(there) else _CLEAR
        question = f"{field[:-1].capitalize()} {index + 1} ({_CLEAR}: no more)"
        answer = ask(question, default, _filled if index < least else _anything)
        if answer == _CLEAR and index >= least:
            break
        words.append(f"{field}={answer}")
    return words or [f"{field}="]


def _question(field: str, hint: str) -> str:
    from planner.files.edit_fields import field_type, words_allowed
    from planner.files.schema_words import describe

    owner = {"dose": "Dose", "jump": "Jump", "sprint": "Sprint"}.get(field.split(".")[0], "Movement")
    owner = owner if "." in field else "Movement"
    allowed = words_allowed(field_type(field))
    shown = hint or (", ".join(allowed) if allowed else "")
    return f"\n{describe(owner, field.split('.')[-1])}{f' ({shown})' if shown else ''}\n{field}"


def _shown(data: dict[str, Any], field: str) -> str:
    """The value so far, as it would be typed; - where an optional field has none, nothing where one is wanted."""
    from planner.files.edit_fields import is_required
    from planner.files.edit_values import flow_text

    value: Any = data
    for step in field.split("."):
        value = value.get(step) if isinstance(value, dict) else None
    if value == {} and is_required(field):
        return "{}"
    if value is None or value == [] or value == {}:
        return "" if is_required(field) else _CLEAR
    if isinstance(value, list):
        return ", ".join(str(item) for item in value)
    return flow_text(value)[1:-1] if isinstance(value, dict) else str(value)


def _field_check(field: str) -> Callable[[str], str]:
    """Refuses, in a coach's words, an answer that the field's own type would refuse."""

    def check(answer: str) -> str:
        from pydantic import TypeAdapter, ValidationError

        from planner.domain.base import MovementId
        from planner.domain.findings import UserError
        from planner.files.edit_fields import field_type, is_required, read_assignments
        from planner.files.wording import describe

        if field != "family" and answer in ("", _CLEAR):
            if is_required(field):
                raise ValueError("something must stand here")
            return _CLEAR
        try:
            value = answer if field == "family" else read_assignments([f"{field}={answer}"])[0].value
            TypeAdapter(MovementId if field == "family" else field_type(field)).validate_python(value)
        except UserError as error:
            raise ValueError(_sentence(error.findings[0].message, error.findings[0].hint)) from None
        except ValidationError as error:
            problem = describe(dict(error.errors()[0]), None, "")
            raise ValueError(_sentence(problem.message, problem.hint)) from None
        return answer

    return check


def _in_library(field: str, check: Callable[[str], str], library: Library) -> Callable[[str], str]:
    """As ``check``, and what is named must be in the library: told at once, not after the last question."""

    def checked(answer: str) -> str:
        from planner.files.suggest import did_you_mean

        answer = check(answer)
        names = [name.strip(" []") for name in answer.split(",")] if answer != _CLEAR else []
        known: list[str] = []
        if field in ("easier", "harder", "dose.of"):
            known = list(library.movements)
        elif field == "equipment":
            known = list(library.equipment)
        for name in names if known else []:
            if name not in known:
                raise ValueError(_sentence(f"'{name}' is not in the library", did_you_mean(name, known)))
        return answer

    return checked


def _sentence(message: str, hint: str) -> str:
    return f"{message}; {hint}" if hint else message


def _anything(answer: str) -> str:
    return answer or _CLEAR


def _filled(answer: str) -> str:
    if not answer or answer == _CLEAR:
        raise ValueError("something must stand here")
    return answer


def _new_id(library: Library) -> Callable[[str], str]:
    def check(answer: str) -> str:
        if _slug(answer) != answer or not answer:
            raise ValueError(f"small letters, digits and single hyphens: {_slug(answer)}")
        if answer in library:
            raise ValueError(f"'{answer}' is in the library already, at {library.places.get(answer, '')}")
        return answer

    return check


def _known_or_none(library: Library) -> Callable[[str], str]:
    def check(answer: str) -> str:
        from planner.files.suggest import did_you_mean

        if answer in ("", _CLEAR) or answer in library:
            return answer or _CLEAR
        alike: Sequence[str] = [m.id for m in library if answer.casefold() in f"{m.id} {m.name}".casefold()]
        hint = f"perhaps {', '.join(alike[:6])}" if alike else did_you_mean(answer, library.movements)
        raise ValueError(f"no movement '{answer}'; {hint}".rstrip("; "))

    return check


def _slug(text: str) -> str:
    return re.sub(r"[^a-z0-9]+", "-", text.lower()).strip("-")[:60]
