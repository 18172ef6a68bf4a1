"""``field=value`` as a coach types it: the path it names and the value it means, by the movement's own model."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Literal, get_args, get_origin

from pydantic.fields import FieldInfo

from planner.domain.findings import Finding, UserError
from planner.domain.movement import Movement
from planner.files.annotations import annotation_of, bare, dimension_of, is_model, metadata_of
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
            problems += _refused("twice", f"'{dotted(one.path)}' is given twice", "give it once").findings
    if problems:
        raise UserError(problems)
    return list(found.values())


def _read(word: str) -> Assignment:
    name, equals, raw = word.partition("=")
    if not equals or not name.strip():
        raise _refused("no-value", f"'{word}' is not field=value", "write it like level=advanced")
    path, annotation = _type_at(name.strip())
    return Assignment(path, _value(raw.strip(), annotation), (word,))


def _where_inside(step: str) -> str:
    """A hint if the field is one step further in: ``tier`` is in ``jump``."""
    tables = {key: bare(field.annotation) for key, field in Movement.model_fields.items()}
    holders = [key for key, kind in tables.items() if step in getattr(kind, "model_fields", {})]
    return f"write {' or '.join(f'{key}.{step}=' for key in holders)}" if holders else ""


def _type_at(name: str) -> tuple[Path, Any]:
    """The steps of a dotted name and the type of what it names."""
    annotation: Any = Movement
    path: list[str | int] = []
    for word in name.split("."):
        step, annotation = _one_step(bare(annotation), word, path)
        path.append(step)
    return tuple(path), annotation


def _one_step(annotation: Any, word: str, path: list[str | int]) -> tuple[str | int, Any]:
    """The step that ``word`` is below this type, and the type it leads to. Entries of a list count from 1."""
    if is_model(annotation):
        fields = {field.alias or key: field for key, field in annotation.model_fields.items()}
        if word not in fields:
            hint = _where_inside(word) if not path else ""
            hint = hint or did_you_mean(word, fields, most_listed=30)
            raise _refused("unknown-field", f"'{word}' is not a field{_of(path)}", hint)
        return word, annotation_of(fields[word])
    if get_origin(annotation) is dict:
        words, values = get_args(annotation)
        known = get_args(bare(words))
        if word not in known:
            message = f"'{word}' is not one of the words allowed{_of(path)}"
            raise _refused("unknown-field", message, did_you_mean(word, known))
        return word, values
    if get_origin(annotation) is tuple and word.isdecimal() and int(word) > 0:
        return int(word) - 1, get_args(annotation)[0]
    message = f"'{word}' is not an entry{_of(path)}"
    raise _refused("unknown-field", message, "entries of a list count from 1: cues.1=...")


def _value(raw: str, annotation: Any) -> Data:
    """What the text means as a value of this type; None for an empty text."""
    if not raw:
        return None
    kind = bare(annotation)
    if get_origin(kind) is tuple:
        if raw.startswith("["):
            return _yaml(raw)
        item = get_args(kind)[0]
        parts = [raw] if _is_sentence(item) else [part.strip() for part in raw.split(",") if part.strip()]
        return [_value(part, item) for part in parts]
    if get_origin(kind) is dict or is_model(kind):
        return _yaml(raw if raw.startswith("{") else f"{{{raw}}}")
    if kind is str or get_origin(kind) is Literal or dimension_of(metadata_of(annotation)):
        return raw
    try:
        return resolve(raw)
    except ValueProblem as problem:
        raise _refused(problem.code, str(problem), problem.hint) from None


def _yaml(text: str) -> Data:
    root, _, findings = read_tree(text.encode("utf-8"), "")
    data, odd = to_data(root) if root is not None and not findings else (None, [])
    reasons = [finding.message for finding in findings] + [str(problem) for _, problem in odd]
    if reasons:
        hint = "check the brackets; put a space after each colon"
        raise _refused("yaml-syntax", f"'{text}' cannot be read: {reasons[0]}", hint)
    return data


def annotation_at(name: str) -> Any:
    """The type of a field given by its dotted name, with what limits it. UserError for an unknown one."""
    return _type_at(name)[1]


def field_of(name: str) -> FieldInfo | None:
    """The model's field of this dotted name; None for a key of a table. UserError for an unknown name."""
    *above, last = name.split(".")
    model: Any = bare(annotation_at(".".join(above))) if above else Movement
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
    """Text that may hold commas: a cue or a caution, not an id."""
    limits = list(metadata_of(annotation))
    longest = max((getattr(limit, "max_length", None) or 0 for limit in limits), default=0)
    return bare(annotation) is str and longest > 60 and not any(getattr(limit, "pattern", None) for limit in limits)


def _refused(code: str, message: str, hint: str) -> UserError:
    return UserError([Finding("", 0, 0, code, message, hint)])


def dotted(path: Path) -> str:
    """The path as it is typed, entries counted from 1."""
    return ".".join(str(step + 1) if isinstance(step, int) else step for step in path)


def _of(path: Sequence[str | int]) -> str:
    return f" of {dotted(tuple(path))}" if path else " of a movement"
