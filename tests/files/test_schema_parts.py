"""What an editor is told of our files: which words a field may have, what it needs, what a quantity looks like."""

from __future__ import annotations

import re
from functools import cache
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from planner.domain.terms import ROLES
from planner.files.schema import SCHEMAS, schema, schema_of_kind
from planner.rules.own_limits import own_limits


@cache
def read(name: str) -> dict[str, Any]:
    return schema(name, own_limits())


def part(name: str, path: str) -> Any:
    found: Any = read(name)
    for step in path.split("/"):
        found = found[int(step) if isinstance(found, list) else step]
    return found


@pytest.mark.parametrize("name", [name for name, kinds in SCHEMAS.items() if len(kinds) == 1])
def test_a_schema_of_one_kind_of_file_is_that_file_s(name: str) -> None:
    found = read(name)
    assert found["$schema"] == "https://json-schema.org/draft/2020-12/schema" and found["title"] == f"jumpblock {name}"
    assert found["properties"]["file"]["const"] == f"{name}/1" and "file" in found["required"]
    assert found["additionalProperties"] is False and schema_of_kind(f"{name}/1") == name


def test_the_schema_of_a_library_chooses_by_the_first_line() -> None:
    found = read("library")
    assert found["required"] == ["file"] and found["type"] == "object" and found["title"] == "jumpblock library"
    assert found["properties"]["file"]["enum"] == ["movements/1", "equipment/1", "library-review/1"]
    assert found["properties"]["file"]["description"].startswith("What this file is")
    check = Draft202012Validator(found)
    things = [{"id": "box", "name": "Box"}]
    assert check.is_valid({"file": "equipment/1", "equipment": things})
    assert not check.is_valid({"file": "movements/1", "equipment": things})
    assert not check.is_valid({"file": "equipment/1", "equipment": []})
    assert not check.is_valid({"file": "equipments/1"}) and not check.is_valid({"equipment": things})
    assert [schema_of_kind(kind) for kind in ("movements/1", "equipment/1", "movements/2")] == [
        "library",
        "library",
        None,
    ]


@pytest.mark.parametrize(
    ("name", "path", "says"),
    [
        (
            "athlete",
            "properties/body_mass",
            "Body mass with its unit. Number and unit (kg, g, lb). From 25 kg to 250 kg.",
        ),
        (
            "athlete",
            "properties/tip_toe_reach/anyOf/0",
            "Number and unit (m, cm, mm, in, ft, yd). From 1.4 m to 3.3 m.",
        ),
        (
            "library",
            "$defs/Dose/properties/rest",
            "Rest after a set. Number and unit (s, ms, min). From 0 s to 1200 s.",
        ),
        (
            "library",
            "$defs/Jump/properties/drop/anyOf/0",
            "Number and unit (m, cm, mm, in, ft, yd). From 0.05 m to 1.2 m.",
        ),
    ],
)
def test_a_quantity_is_text_with_a_unit_and_its_bounds_are_said_in_words(name: str, path: str, says: str) -> None:
    found = part(name, path)
    assert sorted(found) == ["description", "pattern", "type"]
    assert (found["type"], found["description"]) == ("string", says)
    unit = says.partition("(")[2].partition(",")[0]
    for text in (f"1 {unit}", f"+1.5{unit}", f"1,5 {unit}", f"1 1/2 {unit}", f" 5 {unit} 11 {unit} ", f"1\u00a0{unit}"):
        assert re.search(found["pattern"], text), text
    for text in ("1", unit, f"1,5,0 {unit}", f"1 {unit} x", f"x 1 {unit}", f"1. {unit}", f"--1 {unit}"):
        assert not re.search(found["pattern"], text), text


@pytest.mark.parametrize(
    ("name", "path", "default"),
    [
        ("library", "$defs/Movement/properties/runway", None),  # a length: its default is a number inside the planner
        ("library", "$defs/Movement/properties/harder", None),
        ("library", "$defs/Movement/properties/heavy_hinge", False),
        ("library", "$defs/Dose/properties/load", "none"),
        ("library", "$defs/Dose/properties/ratio", 1.0),
        ("library", "$defs/Jump/properties/contacts_per_rep", 1),
    ],
)
def test_a_default_is_told_where_a_file_could_hold_it(name: str, path: str, default: object) -> None:
    assert part(name, path).get("default") == default
    assert ("default" in part(name, path)) == (default is not None)


def test_a_table_of_known_words_has_them_as_fields_and_no_others() -> None:
    stress = part("library", "$defs/Movement/properties/stress")
    assert list(stress["properties"]) == ["achilles-ankle", "patellar-knee", "hip-groin", "hamstring", "low-back"]
    assert stress["properties"]["hamstring"] == {"maximum": 3, "minimum": 0, "type": "integer"}
    assert stress["additionalProperties"] is False and "propertyNames" not in stress


def _all(found: Any) -> list[dict[str, Any]]:
    inner = found.values() if isinstance(found, dict) else found if isinstance(found, list) else ()
    return [*([found] if isinstance(found, dict) else []), *(one for part in inner for one in _all(part))]


@pytest.mark.parametrize("name", SCHEMAS)
def test_descriptions_are_plain_lines_and_titles_are_not_repeated(name: str) -> None:
    parts = _all(read(name))
    texts = [one["description"] for one in parts if isinstance(one.get("description"), str)]
    assert texts and all(text == " ".join(text.split()) and "``" not in text for text in texts)
    assert sum(isinstance(one.get("title"), str) for one in parts) == 1
    assert not any(isinstance(one.get("discriminator"), dict) for one in parts)
    assert name == "squad-rules" or any(one.get("type") == "array" for one in parts)  # that one has no list


def test_a_template_need_not_say_what_its_limits_file_says() -> None:
    found = read("template")
    needed = ["file", "id", "name", "about", "source", "weeks", "reference_week", "levels", "day_plans", "schemes"]
    assert found["required"] == [*needed, "shapes"]
    assert (
        found["properties"]["limits"]["type"] == "string"
        and "limits file" in found["properties"]["limits"]["description"]
    )
    of_limits = ("Growth", "Floors", "TaperLimits", "Prices", "BandWidth", "Youth", "HardDay")
    assert not any("required" in found["$defs"][name] for name in of_limits)
    own = {"LevelPlan": ["weeks"], "Scheme": ["weeks"], "WeekPlan": ["phase", "role"], "SchemeWeek": ["sets"]}
    assert {name: found["$defs"][name]["required"] for name in own} == own
    assert found["properties"]["shapes"]["items"] == {"anyOf": [{"type": "string"}, {"$ref": "#/$defs/Shape"}]}


@pytest.mark.parametrize(("plan", "entry"), [("LevelPlan", "WeekBudget"), ("Scheme", "SchemeWeek")])
def test_weeks_are_a_list_or_are_given_by_role(plan: str, entry: str) -> None:
    weeks = part("template", f"$defs/{plan}/properties/weeks")
    a_list, roles = weeks["anyOf"]
    one = {"$ref": f"#/$defs/{entry}"}
    assert a_list["items"] == one and a_list["type"] == "array" and "description" not in a_list
    assert tuple(roles["properties"]) == ROLES
    assert roles["additionalProperties"] is False and roles["type"] == "object"
    assert roles["properties"]["build"] == {"anyOf": [one, {"type": "array", "items": one, "minItems": 1}]}
    assert weeks["description"]
