"""``field=value`` as a coach types it: the path it names and the value it means, by the movement's own model."""

from __future__ import annotations

import types
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Annotated, Any, Literal, Union, get_args, get_origin

from pydantic import BaseModel, BeforeValidator
from pydantic.fields import FieldInfo

from planner.domain.findings import Finding, UserError
from planner.domain.movement import Movement
from planner.files.shape import bare
from planner.files.suggest import did_you_mean
from planner.files.syntax import read_tree
from planner.files.tree import Path
from planner.files.values import Data, ValueProblem, resolve, to_data

# The order in which the shipped files write a movement's fields.
ORDER = tuple(Movement.model_fields)


@dataclass(frozen=True)
class Assignment:
    """One ``field=value``; ``value`` None: take the field out."""

    path: Path
    value: Data
    written: tuple[str, ...]  # the words as typed

    @property
    def drops(self) -> bool:
        return self.value is None


def read_assignments(words: Sequence[str]) -> list[Assignment]:
    """``stress.patellar-knee=2``, ``cues=...`` (once an entry), ``harder=`` (take it out). UserError if not readable.

    A list of words takes ``equipment=barbell,rack``; a mapping ``jump="{direction: vertical, ...}"`` or one field of
    it at a time; entries count from 1: ``cues.2=...``.
    """
    found: dict[Path, Assignment] = {}
    problems: list[Finding] = []
    for word in words:
        try:
            one = _read(word)
        except UserError as error:
            problems += error.findings
            continue
        earlier = found.get(one.path)
        if earlier is None or one.drops or earlier.drops:
            found[one.path] = one
        elif isinstance(earlier.value, list) and isinstance(one.value, list):
            found[one.path] = Assignment(one.path, [*earlier.value, *one.value], earlier.written + one.written)
        else:
            problems.append(_problem(word, "twice", f"'{_name(one.path)}' is given twice", "give it once"))
    if problems:
        raise UserError(problems)
    return list(found.values())


def _read(word: str) -> Assignment:
    name, equals, raw = word.partition("=")
    if not equals or not name.strip():
        raise UserError([_problem(word, "no-value", f"'{word}' is not field=value", "write it like level=advanced")])
    path, annotation = _path(name.strip(), word)
    return Assignment(path, _value(raw.strip(), annotation, word), (word,))


def _inside(step: str) -> str:
    """A hint where the name is that of a field one step further in: ``tier`` is in ``jump``."""
    tables = {key: bare(field.annotation) for key, field in Movement.model_fields.items()}
    holders = [key for key, kind in tables.items() if step in getattr(kind, "model_fields", {})]
    return f"write {' or '.join(f'{key}.{step}=' for key in holders)}" if holders else ""


def _path(name: str, word: str) -> tuple[Path, Any]:
    """The steps of a dotted name and the type of what it names. Entries of a list count from 1."""
    annotation: Any = Movement
    path: list[str | int] = []
    for step in name.split("."):
        annotation = bare(annotation)
        inner: Any = None
        if isinstance(annotation, type) and issubclass(annotation, BaseModel):
            fields = {field.alias or key: field for key, field in annotation.model_fields.items()}
            if step not in fields:
                hint = _inside(step) if not path else ""
                hint = hint or did_you_mean(step, fields, most_listed=30)
                raise UserError([_problem(word, "unknown-field", f"'{step}' is not a field{_of(path)}", hint)])
            # The model keeps what Annotated says of a field apart from its type.
            inner = (
                Annotated[(fields[step].annotation, *fields[step].metadata)]
                if fields[step].metadata
                else fields[step].annotation
            )
        elif get_origin(annotation) is dict:
            keys = [key for key in get_args(bare(get_args(annotation)[0]))]
            if step not in keys:
                message = f"'{step}' is not one of the words allowed{_of(path)}"
                raise UserError([_problem(word, "unknown-field", message, did_you_mean(step, keys))])
            inner = get_args(annotation)[1]
        elif get_origin(annotation) is tuple and step.isdecimal() and int(step) > 0:
            path.append(int(step) - 1)
            annotation = get_args(annotation)[0]
            continue
        else:
            message = f"'{step}' is not an entry{_of(path)}"
            raise UserError([_problem(word, "unknown-field", message, "entries of a list count from 1: cues.1=...")])
        path.append(step)
        annotation = inner
    return tuple(path), annotation


def _value(raw: str, annotation: Any, word: str) -> Data:
    """What the text means as a value of this type; None for an empty text."""
    if not raw:
        return None
    kind = bare(annotation)
    if get_origin(kind) is tuple:
        if raw.startswith("["):
            return _yaml(raw, word)
        item = get_args(kind)[0]
        parts = [raw] if _is_sentence(item) else [part.strip() for part in raw.split(",") if part.strip()]
        return [_value(part, item, word) for part in parts]
    if get_origin(kind) is dict or (isinstance(kind, type) and issubclass(kind, BaseModel)):
        return _yaml(raw if raw.startswith("{") else f"{{{raw}}}", word)
    if kind is str or get_origin(kind) is Literal or _is_quantity(annotation):
        return raw
    try:
        return resolve(raw)
    except ValueProblem as problem:
        raise UserError([_problem(word, problem.code, str(problem), problem.hint)]) from None


def _yaml(text: str, word: str) -> Data:
    root, _, findings = read_tree(text.encode("utf-8"), "")
    data, odd = to_data(root) if root is not None and not findings else (None, [])
    reasons = [finding.message for finding in findings] + [str(problem) for _, problem in odd]
    if reasons:
        hint = "check the brackets; put a space after each colon"
        raise UserError([_problem(word, "yaml-syntax", f"'{text}' cannot be read: {reasons[0]}", hint)])
    return data


def field_type(name: str) -> Any:
    """The type of a field given by its dotted name, with what limits it. UserError for an unknown one."""
    return _path(name, name)[1]


def field_of(name: str) -> FieldInfo | None:
    """The model's field of this dotted name; None for a key of a table. UserError for an unknown name."""
    *above, last = name.split(".")
    model: Any = bare(field_type(".".join(above))) if above else Movement
    return model.model_fields.get(last) if hasattr(model, "model_fields") else None


def is_required(name: str) -> bool:
    """Whether a movement must have the field (or the table that it belongs to)."""
    found = field_of(name)
    return found is not None and found.is_required()


def words_allowed(annotation: Any) -> list[str]:
    """The words that a field, its entries or its keys may have; empty where any text is allowed."""
    kind = bare(annotation)
    if get_origin(kind) is Literal:
        return [str(word) for word in get_args(kind)]
    if get_origin(kind) in (tuple, dict):
        return words_allowed(get_args(kind)[0])
    return []


def _is_sentence(annotation: Any) -> bool:
    """Text that may hold commas: a cue or a caution, and no id."""
    return (
        bare(annotation) is str
        and not any(getattr(part, "pattern", None) for part in _metadata(annotation))
        and _longest(annotation) > 60
    )


def _longest(annotation: Any) -> int:
    return max((int(part.max_length) for part in _metadata(annotation) if getattr(part, "max_length", None)), default=0)


def _is_quantity(annotation: Any) -> bool:
    return any(isinstance(part, BeforeValidator) for part in _metadata(annotation))


def _metadata(annotation: Any) -> Iterable[Any]:
    if get_origin(annotation) in (Union, types.UnionType):
        return [part for member in get_args(annotation) for part in _metadata(member)]
    if get_origin(annotation) is not Annotated:
        return []
    first, *rest = get_args(annotation)
    own = [part for one in rest for part in (getattr(one, "metadata", None) or [one])]
    return [*own, *_metadata(first)]


def _problem(word: str, code: str, message: str, hint: str) -> Finding:
    return Finding("", 0, 0, code, message, hint)


def _name(path: Path) -> str:
    return ".".join(str(step + 1) if isinstance(step, int) else step for step in path)


def _of(path: Sequence[str | int]) -> str:
    return f" of {_name(tuple(path))}" if path else " of a movement"
