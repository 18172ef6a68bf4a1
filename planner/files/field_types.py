"""What a model says of one of its fields: sort, unit, bounds, words; the cells of a sheet are held to that."""

from __future__ import annotations

import datetime
from dataclasses import dataclass
from functools import cache
from typing import Any, Literal, get_args, get_origin

from annotated_types import Ge, Gt, Le
from pydantic import BaseModel
from pydantic.fields import FieldInfo

from planner.domain.measure import Test, TestKind
from planner.files.annotations import annotation_of, bare, dimension_of, is_model, metadata_of
from planner.units import Dimension

Sort = Literal["quantity", "whole", "decimal", "word", "date", "text"]
# How a test holds its figures: a list, a list of small tables, one figure or a list of each leg, or fields of its own.
TestShape = Literal["trials", "trial-fields", "legs", "leg-lists", "fields"]


@dataclass(frozen=True)
class FieldType:
    """``low`` and ``high``: None where open; of a quantity in base units. ``open_low``: whether ``low`` is left out."""

    sort: Sort
    dimension: Dimension | None = None
    words: tuple[str, ...] = ()
    low: float | None = None
    high: float | None = None
    open_low: bool = False
    longest: int | None = None

    def holds(self, value: float) -> bool:
        below = self.low is not None and (value <= self.low if self.open_low else value < self.low)
        return not below and (self.high is None or value <= self.high)


def field_type(model: type[BaseModel], name: str) -> FieldType:
    """Of a field by its name; a dot leads into a section. KeyError where there is none."""
    *sections, last = name.split(".")
    for section in sections:
        model = bare(model.model_fields[section].annotation)
    return _type_of(annotation_of(model.model_fields[last]))


def model_of_test(kind: TestKind) -> type[BaseModel]:
    found: type[BaseModel] = next(
        member for member in get_args(get_args(Test)[0]) if kind in get_args(member.model_fields["kind"].annotation)
    )
    return found


def shape_of_test(kind: TestKind) -> TestShape:
    model = model_of_test(kind)
    if "trials" in model.model_fields:
        return "trial-fields" if is_model(bare(_entry(model.model_fields["trials"]))) else "trials"
    if "left" in model.model_fields:
        return "leg-lists" if get_origin(bare(annotation_of(model.model_fields["left"]))) is tuple else "legs"
    return "fields"


@cache
def figure_type(kind: TestKind, field: str) -> FieldType:
    """Of one figure of a trial. KeyError where such a test has no such figure."""
    model, shape = model_of_test(kind), shape_of_test(kind)
    if shape == "fields":
        return field_type(model, field)
    if shape == "trial-fields":
        return field_type(bare(_entry(model.model_fields["trials"])), field)
    if field != "trials":
        raise KeyError(field)
    if shape == "trials":
        return _type_of(_entry(model.model_fields["trials"]))
    left = model.model_fields["left"]
    return _type_of(_entry(left) if shape == "leg-lists" else annotation_of(left))


def _entry(field: FieldInfo) -> Any:
    return get_args(bare(field.annotation))[0]


def _type_of(annotation: Any) -> FieldType:
    kind, metadata = bare(annotation), list(metadata_of(annotation))
    if kind is datetime.date:
        return FieldType("date")
    bounds = _bounds(metadata)
    dimension = dimension_of(metadata)
    if dimension is not None:
        return FieldType("quantity", dimension, **bounds)
    if get_origin(kind) is Literal:
        return FieldType("word", words=get_args(kind))
    if kind is int:
        return FieldType("whole", **bounds)
    if kind is float:
        return FieldType("decimal", **bounds)
    longest = next((one.max_length for one in metadata if getattr(one, "max_length", None)), None)
    return FieldType("text", longest=longest)


def _bounds(metadata: list[Any]) -> Any:
    low = next((one.ge for one in metadata if isinstance(one, Ge)), None)
    above = next((one.gt for one in metadata if isinstance(one, Gt)), None)
    high = next((one.le for one in metadata if isinstance(one, Le)), None)
    return {"low": low if above is None else above, "high": high, "open_low": above is not None}
