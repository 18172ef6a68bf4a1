"""The schemas hold every shipped file, by a validator that knows no model of ours, and refuse what the models do."""

from __future__ import annotations

import datetime
import json
import shutil
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from planner.domain import block
from planner.files.dump import block_to_json
from planner.files.editor_lines import SCHEMA_FOLDER
from planner.files.kinds import file_kind, model_of
from planner.files.load import load_block, load_bytes, read_document, then
from planner.files.schema import SCHEMAS, schema, schema_of_kind
from planner.files.values import to_data
from planner.rules.own_limits import own_limits, own_limits_findings
from planner.units import QuantityError, parse_quantity
from tests.cli.conftest import CHECKOUT, planned  # noqa: F401  (the fixture)
from tests.library_commands.test_mutations import SHIPPED, _mutants

CHECKED_BY_PLANNER_ONLY = {"quantity", "out-of-range", "duplicate-key", "yaml-syntax", "odd-number"}


def plain(value: Any) -> Any:
    """Dates as text: a JSON document has no others."""
    if isinstance(value, dict):
        return {key: plain(inner) for key, inner in value.items()}
    if isinstance(value, list):
        return [plain(inner) for inner in value]
    return value.isoformat() if isinstance(value, datetime.date) else value


@cache
def validator(name: str) -> Draft202012Validator:
    return Draft202012Validator(schema(name, own_limits()))


def complaints(name: str, data: Any) -> list[str]:
    return [error.message for error in validator(name).iter_errors(plain(data))]


@pytest.mark.parametrize("name", SCHEMAS)
def test_each_is_a_schema_of_its_dialect(name: str) -> None:
    Draft202012Validator.check_schema(schema(name, own_limits()))


@pytest.mark.parametrize("path", SHIPPED, ids=[path.stem for path in SHIPPED])
def test_every_shipped_file_is_valid(path: Path) -> None:
    document = read_document(path.read_bytes(), path.name, "")[0]
    assert document is not None
    name = schema_of_kind(str(file_kind(document)[0]))
    assert name is not None
    assert complaints(name, to_data(document.root)[0]) == []


def test_a_planned_block_is_valid_in_both_notations(planned: Path) -> None:  # noqa: F811
    document = read_document((planned / "block.yaml").read_bytes(), "block.yaml", "")[0]
    assert document is not None
    assert complaints("block", to_data(document.root)[0]) == []
    as_json = json.loads(block_to_json(load_block(planned / "block.yaml").require()))
    assert complaints("block", as_json) == []
    assert isinstance(load_block(planned / "block.yaml").require(), block.Block)


@pytest.mark.parametrize("path", SHIPPED[::6], ids=[path.stem for path in SHIPPED[::6]])
def test_schema_and_model_agree_on_broken_files(path: Path) -> None:
    """What the model takes the schema takes; what the schema refuses the model refuses, and the other way round but for
    what a schema cannot say."""
    seen = 0
    for mutant in _mutants(path, 2):
        document = read_document(mutant.text.encode(), path.name, "")[0]
        kind = file_kind(document)[0] if document is not None else None
        if document is None or kind is None or not mutant.line:
            continue
        loaded = then(load_bytes(mutant.text.encode(), path.name), own_limits_findings)
        found = {finding.code for finding in loaded.findings}
        refused = bool(complaints(str(schema_of_kind(kind)), to_data(document.root)[0]))
        if found - CHECKED_BY_PLANNER_ONLY:
            assert refused, (mutant.sort, mutant.what, found)
        if not found:
            assert not refused, (mutant.sort, mutant.what)
        seen += 1
    assert seen > 3


QUANTITIES = [
    "71.4 kg",
    "157 lb",
    "5 ft 11 in",
    "+3 m",
    "0.21s",
    "71.4",
    "kg",
    "71,4 kg",
    "1e3 m",
    "3 m extra",
    "-2 cm",
    " 4 m ",
]


@pytest.mark.parametrize("text", QUANTITIES)
@pytest.mark.parametrize("dimension", ["mass", "length", "time"])
def test_quantity_patterns_take_what_the_planner_reads(text: str, dimension: Any) -> None:
    """The pattern may take a wrong order of units, which it cannot see; it refuses nothing that is right."""
    import re

    from planner.files.schema import quantity_pattern

    taken = re.search(quantity_pattern(dimension), text) is not None
    try:
        parse_quantity(text, dimension)
    except QuantityError:
        assert not taken
    else:
        assert taken


@pytest.mark.parametrize("name", SCHEMAS)
def test_every_field_says_what_it_means(name: str) -> None:
    """A new field gets its sentence in its model, as the description of its Field."""
    silent: list[str] = []
    models = schema(name, own_limits())["$defs"] | ({} if name == "library" else {name: schema(name, own_limits())})
    for model, part in models.items():
        own = part.get("properties", {}) if part.get("type") == "object" else {}
        silent += [f"{model}.{field}" for field, inner in own.items() if not inner.get("description")]
    assert silent == []


def test_the_command_prints_the_same(run) -> None:
    for name in SCHEMAS:
        assert run("library", "schema", name).json == schema(name, own_limits())
    assert run("library", "schema").json == schema("library", own_limits())


def test_files_of_start_carry_a_line_that_leads_to_their_schema(started: Path) -> None:
    files = sorted([*(started / "exercise_library").glob("*.yaml"), *(started / "templates").rglob("*.yaml")])
    assert len(files) == len(SHIPPED)
    for path in files:
        first, _, rest = path.read_text("utf-8").partition("\n")
        relative = first.removeprefix("# yaml-language-server: $schema=")
        target = (path.parent / relative).resolve()
        assert target.parent == (started / SCHEMA_FOLDER).resolve()
        document = read_document(path.read_bytes(), path.name, "")[0]
        assert document is not None
        data = to_data(document.root)[0]
        assert list(Draft202012Validator(json.loads(target.read_text("utf-8"))).iter_errors(plain(data))) == []
        shipped = CHECKOUT / path.relative_to(started)
        assert rest == shipped.read_text("utf-8")
        assert model_of(str(data["file"])) is not None  # type: ignore[index,call-overload]


def test_a_copy_in_another_folder_is_told_the_way_to_its_schema(run, started: Path, tmp_path: Path) -> None:
    shutil.copytree(started, tmp_path / "coach")
    copy = tmp_path / "coach/petra.yaml"
    shutil.copy(started / "templates/athletes/in-season-player.yaml", copy)
    outcome = run("check", copy, "--json")
    assert outcome.code == 0
    (finding,) = outcome.json["findings"]
    assert (finding["code"], finding["level"], finding["line"]) == ("editor-line", "note", 1)
    line = finding["hint"].removeprefix("write ")
    copy.write_text(line + "\n" + copy.read_text("utf-8").partition("\n")[2], "utf-8")
    assert run("check", copy, "--json").json["findings"] == []
