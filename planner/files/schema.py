"""JSON Schema (2020-12) of our files, from the models that read them: an editor completes and checks as one types.

What the schema refuses, the planner refuses; the planner sees more: bounds of quantities, references, sense.
"""

from __future__ import annotations

import re
from typing import Any

from pydantic import BaseModel
from pydantic.json_schema import GenerateJsonSchema, JsonSchemaValue
from pydantic_core import core_schema

from planner.files.kinds import LIBRARY_KINDS, model_of
from planner.files.schema_template import with_limits, with_own_limits
from planner.units import BASE_UNIT, UNITS, Dimension, unit_words

DIALECT = "https://json-schema.org/draft/2020-12/schema"
# Names of schemas, and the kinds of file that each describes.
SCHEMAS: dict[str, tuple[str, ...]] = {
    "library": LIBRARY_KINDS,
    "athlete": ("athlete/1",),
    "template": ("template/1",),
    "limits": ("limits/1",),
    "benchmarks": ("benchmarks/1",),
    "card-layout": ("card-layout/1",),
    "follow-up": ("follow-up/1",),
    "usual-gyms": ("usual-gyms/1",),
    "test-sheet": ("test-sheet/1",),
    "squad": ("squad/1",),
    "squad-rules": ("squad-rules/1",),
    "block": ("block/1",),
    "log": ("log/1",),
}
_NUMBER = r"([0-9]+([.,][0-9]+)?([\s-]+[0-9]+/[0-9]+)?|[0-9]+/[0-9]+)"
_DIMENSION = "dimension of a quantity"  # a mark for the tidying, which says the units and bounds of quantities in words
_SPACE = r"[\s\u00a0\u202f]*"


def schema(name: str, own_limits: type[BaseModel]) -> dict[str, Any]:
    """The schema called ``name`` (a key of SCHEMAS). A file's first line chooses where it may be of several kinds.

    ``own_limits``: what templates and limits files say for single rules.
    """
    kinds = SCHEMAS[name]
    if len(kinds) == 1:
        found = _of_model(with_own_limits(model_of(kinds[0]), own_limits))
        found = with_limits(found) if name == "template" else found
        return {"$schema": DIALECT, "title": f"jumpblock {name}", **found}
    parts = {kind: _of_model(model_of(kind)) for kind in kinds}
    definitions = {key: value for part in parts.values() for key, value in part.pop("$defs", {}).items()}
    file = {"enum": list(kinds), "description": model_of(kinds[0]).model_fields["file"].description}
    branches = [
        {
            "if": {"properties": {"file": {"const": kind}}, "required": ["file"]},
            "then": {"$ref": f"#/$defs/{_key(kind)}"},
        }
        for kind in kinds
    ]
    definitions |= {_key(kind): part for kind, part in parts.items()}
    return {
        "$schema": DIALECT,
        "title": f"jumpblock {name}",
        "type": "object",
        "properties": {"file": file},
        "required": ["file"],
        "allOf": branches,
        "$defs": definitions,
    }


def schema_of_kind(kind: str) -> str | None:
    """The name of the schema for files whose first line states ``kind``; None for no kind of ours."""
    return next((name for name, kinds in SCHEMAS.items() if kind in kinds), None)


def editor_line(schema_path: str) -> str:
    """The comment by which YAML editors find the schema of a file."""
    return f"# yaml-language-server: $schema={schema_path}"


def quantity_pattern(dimension: Dimension) -> str:
    """A regular expression (of ECMA 262) for what ``units.parse_quantity`` reads: ``71.4 kg``, ``5 ft 11 in``."""
    unit = "|".join(re.escape(name) for name in unit_words(dimension))
    one = rf"{_SPACE}{_NUMBER}{_SPACE}({unit})"
    inches = rf"({_SPACE}{_NUMBER})?" if dimension == "length" else ""  # 6'2: inches behind feet need no sign
    return rf"^{_SPACE}[+-]?{one.removeprefix(_SPACE)}({one})*{inches}{_SPACE}$"


def _key(kind: str) -> str:
    return model_of(kind).__name__


def _of_model(model: type[BaseModel]) -> dict[str, Any]:
    found = model.model_json_schema(schema_generator=_Generator, by_alias=True)
    return _tidied(found)  # type: ignore[no-any-return]


class _Generator(GenerateJsonSchema):
    """As the models validate files: quantities are text with a unit."""

    def function_before_schema(self, schema: core_schema.BeforeValidatorFunctionSchema) -> JsonSchemaValue:
        dimension: Dimension | None = getattr(schema["function"]["function"], "dimension", None)
        if dimension is None:
            found = super().function_before_schema(schema)
            in_one_line = getattr(schema["function"]["function"], "in_one_line", False)
            return {"anyOf": [found, {"type": "string"}]} if in_one_line else found
        return {"type": "string", "pattern": quantity_pattern(dimension), _DIMENSION: dimension}

    def default_schema(self, schema: core_schema.WithDefaultSchema) -> JsonSchemaValue:
        found = super().default_schema(schema)
        if found.get("type") == "string" and not isinstance(found.get("default"), (str, type(None))):
            found.pop("default", None)  # a quantity's default is a plain number inside the planner
        if found.get("default", ...) is None:
            found.pop("default")
        return found


def _tidied(part: Any) -> Any:
    """Without titles that repeat names; keys of closed tables as properties, which editors complete."""
    if isinstance(part, list):
        return [_tidied(one) for one in part]
    if not isinstance(part, dict):
        return part
    found = {
        key: _tidied(value)
        for key, value in part.items()
        if not (key == "title" and isinstance(value, str)) and key != "discriminator"
    }
    if _DIMENSION in found:
        found |= {"description": f"{found.get('description', '')} {_quantity(found)}".strip()}
        found = {key: value for key, value in found.items() if key not in (_DIMENSION, "ge", "gt", "le", "lt")}
    words = found.get("propertyNames", {}).get("enum") if isinstance(found.get("propertyNames"), dict) else None
    if words and "additionalProperties" in found:
        inner = found["additionalProperties"]
        found |= {"properties": {word: inner for word in words}, "additionalProperties": False}
        found.pop("propertyNames")
    if isinstance(found.get("description"), str):
        found["description"] = " ".join(found["description"].replace("``", "").split())
    return found


def _quantity(part: dict[str, Any]) -> str:
    """The units and limits of a quantity in words: the schema itself cannot compare them."""
    dimension: Dimension = part[_DIMENSION]
    low, high, unit = part.get("ge", part.get("gt")), part.get("le", part.get("lt")), BASE_UNIT[dimension]
    bounds = f" From {low:g} {unit} to {high:g} {unit}." if low is not None and high is not None else ""
    return f"Number and unit ({', '.join(UNITS[dimension])}).{bounds}"
