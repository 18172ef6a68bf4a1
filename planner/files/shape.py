"""Plain data to a model, every error on its line in a coach's words.

The model's errors come with a location that is not always a path in the file: a test's kind is inserted as a step,
a missing field ends in a step that is not there. So location and model are walked together.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Literal, TypeVar, get_args, get_origin

from pydantic import BaseModel, ValidationError

from planner.domain.findings import Finding
from planner.files.annotations import bare, is_model, is_union
from planner.files.complaints import describe
from planner.files.document import Document
from planner.files.missing import how_to_add
from planner.files.suggest import nearest
from planner.files.tree import ListNode, MappingNode, Node, Path, Scalar, child, find
from planner.files.values import Data, iso_date, to_data
from planner.units import counted

M = TypeVar("M", bound=BaseModel)
_MOST_FINDINGS = 100  # nobody reads more, and wording a hundred thousand would take minutes


@dataclass(frozen=True)
class _Spot:
    """Where a location of the model ends in the file. ``complete``: every step of it was found there."""

    path: Path
    node: Node
    parent_model: type[BaseModel] | None
    complete: bool


def validate(model: type[M], document: Document) -> tuple[M | None, list[Finding]]:
    """Read a document as ``model``. All findings at once, sorted by line; the value is None if there is any."""
    data, odd = to_data(document.root)
    findings = [
        document.finding(path, problem.code, f"{_label(path)}{problem.message}", problem.hint)
        for path, problem in odd[:_MOST_FINDINGS]
    ]
    skip = {path for path, _ in odd}
    value: M | None = None
    details = _complaints(model, data)
    if isinstance(details, list) and _unquote_dates(model, document.root, data, details):
        details = _complaints(model, data)
    if isinstance(details, list):
        findings.extend(_findings(model, document, details, skip))
    else:
        value = details
    findings = sorted(set(findings), key=lambda f: (f.path, f.line, f.column, f.code, f.message))
    return (None if findings else value), findings


def _complaints(model: type[M], data: Data) -> M | list[Any]:
    try:
        return model.model_validate(data)
    except ValidationError as error:
        return list(error.errors())


def _unquote_dates(model: type[BaseModel], root: Node, data: Data, details: list[Any]) -> bool:
    """Take a date in quotes (as in every JSON file) as a date where a date is expected. True if any was."""
    changed = False
    for detail in details:
        spot = _locate(model, root, detail["loc"]) if detail["type"] == "date_type" else None
        date = iso_date(spot.node.text) if spot and spot.complete and isinstance(spot.node, Scalar) else None
        if spot and date is not None:
            holder: Any = data
            for step in spot.path[:-1]:
                holder = holder[step]
            holder[spot.path[-1]] = date
            changed = True
    return changed


def _findings(model: type[BaseModel], document: Document, details: list[Any], skip: set[Path]) -> list[Finding]:
    misspelt: set[tuple[Path, str]] = set()  # fields that an unknown field was probably meant to be
    found: dict[tuple[Path, str], Finding] = {}
    for detail in sorted(details, key=lambda d: d["type"] != "extra_forbidden")[:_MOST_FINDINGS]:
        spot = _locate(model, document.root, detail["loc"])
        if spot.path in skip or _counts_good_entries_only(detail, spot.node):
            continue
        if detail["type"] == "missing":
            name = str(detail["loc"][-1])
            if (spot.path, name) not in misspelt:
                at = document.mark(spot.path)
                message = f"'{name}' is missing{_within(spot.path)}"
                found[(spot.path, f"missing {name}")] = document.finding(
                    at, "missing-field", message, how_to_add(spot.parent_model, name)
                )
        elif detail["type"] == "extra_forbidden":
            finding, meant = _unknown_field(model, document, spot)
            misspelt |= {(spot.path[:-1], meant)} if meant else set()
            found[(spot.path, "extra")] = finding
        else:
            problem = describe(detail, spot.node if spot.complete else None, _label(spot.path))
            path, on_key = (spot.path + problem.below, problem.on_key)
            hint = _only_field(model, detail, spot) or problem.hint
            finding = document.finding(path, problem.code, problem.message, hint, on_key=on_key)
            # Each branch of a union complains: the first complaint at a place is enough.
            found.setdefault((spot.path, "value"), finding)
    if len(details) > _MOST_FINDINGS:
        left = len(details) - _MOST_FINDINGS
        more, verb = counted(left, "more finding"), "is" if left == 1 else "are"
        rest = f"{more} in this file {verb} not shown"
        found[((), "rest")] = document.finding((), "more-findings", rest, "fix these first", level="note")
    return list(found.values())


def _only_field(model: type[BaseModel], detail: Any, spot: _Spot) -> str:
    """A word instead of fields is taken for the required field, if there is just one: ``[pogo]``."""
    if detail["type"] not in ("model_type", "model_attributes_type") or not isinstance(spot.node, Scalar):
        return ""
    named = next((one for one in _models_below(model) if one.__name__ == detail.get("ctx", {}).get("class_name")), None)
    needed = [name for name, field in named.model_fields.items() if field.is_required()] if named else []
    if named is None or len(needed) != 1 or isinstance(_complaints(named, {needed[0]: to_data(spot.node)[0]}), list):
        return ""
    return f"write {{{named.model_fields[needed[0]].alias or needed[0]}: {spot.node.text}}}"


def _counts_good_entries_only(detail: Any, node: Node) -> bool:
    """Wrong entries make a long enough list look too short; they have findings of their own."""
    return (
        detail["type"] == "too_short" and isinstance(node, ListNode) and len(node.items) >= detail["ctx"]["min_length"]
    )


def _unknown_field(model: type[BaseModel], document: Document, spot: _Spot) -> tuple[Finding, str | None]:
    name = str(spot.path[-1])
    parent = find(document.root, spot.path[:-1])
    used = set(parent.by_key) if isinstance(parent, MappingNode) else set()
    fields = field_names(spot.parent_model) if spot.parent_model else []
    unused = [field for field in fields if field not in used]
    meant = nearest(name, unused)
    if meant:
        hint = f"did you mean '{meant}'?"
    else:
        homes = sorted({home for current, home in _models_below(model).items() if name in field_names(current)})
        hint = f"it belongs to {' or '.join(homes)}; check the indentation" if homes else ""
        hint = hint or (f"fields it can still have: {', '.join(unused)}" if unused else "delete it")
    message = f"'{name}' is not a field{_of(spot.path[:-1])}"
    return document.finding(spot.path, "unknown-field", message, hint, on_key=True), meant


def field_names(model: type[BaseModel]) -> list[str]:
    """The fields of a model as they are written in a file."""
    return [field.alias or name for name, field in model.model_fields.items()]


def _models_below(model: type[BaseModel]) -> dict[type[BaseModel], str]:
    """Every model of a file, with the field that holds it."""
    found: dict[type[BaseModel], str] = {}
    waiting: list[tuple[str, type[BaseModel]]] = [("the top of the file", model)]
    while waiting:
        home, current = waiting.pop()
        if current in found:
            continue
        found[current] = home
        for key, field in current.model_fields.items():
            waiting.extend((f"'{field.alias or key}'", inner) for inner in _models_in(field.annotation))
    return found


def _models_in(annotation: Any) -> list[type[BaseModel]]:
    if is_model(annotation):
        return [annotation]
    return [model for part in get_args(annotation) if not isinstance(part, str) for model in _models_in(part)]


def _locate(model: type[BaseModel], root: Node, location: tuple[str | int, ...]) -> _Spot:
    """Walk a location down model and file together, leaving out steps that name a kind and not a field."""
    node, annotation, path = root, model, ()  # type: Node, Any, Path
    parent: type[BaseModel] | None = model
    for step in location:
        if step == "[key]":
            continue
        annotation = bare(annotation)
        chosen = _branch(annotation, step)
        if chosen is not None:
            annotation = chosen
            continue
        if is_model(annotation):
            parent = annotation
        below = child(node, step)
        if below is None:
            return _Spot(path, node, parent, complete=False)
        node, path = below[1], (*path, step)
        annotation = _step_into(annotation, step)
    return _Spot(path, node, parent, complete=True)


def _branch(annotation: Any, step: str | int) -> type[BaseModel] | None:
    """The member of a union of models whose ``kind`` is ``step``."""
    if not is_union(annotation):
        return None
    for member in get_args(annotation):
        kind = member.model_fields.get("kind") if hasattr(member, "model_fields") else None
        if kind is not None and get_origin(kind.annotation) is Literal and step in get_args(kind.annotation):
            found: type[BaseModel] = member
            return found
    return None


def _step_into(annotation: Any, step: str | int) -> Any:
    if is_model(annotation):
        for name, field in annotation.model_fields.items():
            if step in (field.alias, name):
                return field.annotation
        return None
    arguments = get_args(annotation)
    if get_origin(annotation) is tuple and arguments:
        return arguments[0]
    return arguments[1] if get_origin(annotation) is dict and len(arguments) == 2 else None


def _label(path: Path) -> str:
    """``body_mass: `` or ``trials, entry 2: ``: the field as the coach wrote it."""
    names = [index for index, step in enumerate(path) if isinstance(step, str)]
    if not names:
        return ""
    entries = [int(step) + 1 for step in path[names[-1] + 1 :]]
    return f"{path[names[-1]]}{''.join(f', entry {entry}' for entry in entries)}: "


def _of(path: Path) -> str:
    return f" of {_label(path)[:-2]}" if path else " of this file"


def _within(path: Path) -> str:
    return f" from {_label(path)[:-2]}" if path else ""
