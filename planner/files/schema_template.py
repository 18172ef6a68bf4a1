"""The schema of a template as it is written: limits from another file, shapes by name, weeks by role."""

from __future__ import annotations

from typing import Any

from pydantic import BaseModel, Field, create_model

from planner.domain.template import FileHead, LevelLimits, LimitSections, SchemeHead
from planner.domain.terms import ROLES

LIMITS = "The limits file that gives what is not written here: a name, such as standard, or a path from this file."


def with_own_limits(model: type[BaseModel], own_limits: type[BaseModel]) -> type[BaseModel]:
    """The model with the sections of single rules as their rules read them; one without such sections as it is."""
    rules = model.model_fields.get("rules")
    if rules is None:
        return model
    return create_model(model.__name__, __base__=model, rules=(own_limits, Field(description=rules.description)))


def with_limits(schema: dict[str, Any]) -> dict[str, Any]:
    """The model's schema, without asking for what a limits file may give; a template without one still needs it all."""
    definitions = schema["$defs"]
    shared = [field for field in LimitSections.model_fields if field not in FileHead.model_fields]
    for name in _reached([schema["properties"][field] for field in shared], definitions):
        definitions[name].pop("required", None)
    for name, given in (("LevelPlan", LevelLimits), ("Scheme", SchemeHead)):
        plan = definitions[name]
        plan["required"] = [field for field in plan["required"] if field not in given.model_fields]
        plan["properties"]["weeks"] = _by_role(plan["properties"]["weeks"])
    for name in _reached(
        [definitions["LevelPlan"]["properties"][field] for field in LevelLimits.model_fields], definitions
    ):
        definitions[name].pop("required", None)
    shapes = schema["properties"]["shapes"]
    shapes["items"] = {"anyOf": [{"type": "string"}, shapes["items"]]}
    properties = dict(schema["properties"])
    properties["limits"] = {"type": "string", "description": LIMITS}
    required = [field for field in schema["required"] if field not in (*shared, "shapes")]
    return {**schema, "properties": properties, "required": [*required, "shapes"]}


def _by_role(weeks: dict[str, Any]) -> dict[str, Any]:
    """A list with an entry a week; or for each role one entry for all of its weeks, or a list of them."""
    entry = weeks["items"]
    of_role = {"anyOf": [entry, {"type": "array", "items": entry, "minItems": 1}]}
    roles = {"type": "object", "properties": dict.fromkeys(ROLES, of_role), "additionalProperties": False}
    words = {"description": weeks["description"]} if "description" in weeks else {}
    return {"anyOf": [{key: value for key, value in weeks.items() if key != "description"}, roles], **words}


def _reached(parts: list[Any], definitions: dict[str, Any]) -> list[str]:
    """Names of the definitions that these parts of a schema lead to."""
    found: dict[str, None] = {}
    waiting: list[Any] = list(parts)
    while waiting:
        part = waiting.pop()
        if isinstance(part, list):
            waiting += part
        elif isinstance(part, dict):
            name = str(part.get("$ref", "")).rpartition("/")[2]
            if name and name not in found:
                found[name] = None
                waiting.append(definitions[name])
            waiting += part.values()
    return list(found)
