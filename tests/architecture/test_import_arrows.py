"""Arrows between the floors point downwards only, and each heavy package is met on one floor."""

from __future__ import annotations

import pytest

from tests.architecture.imports import PACKAGE, all_imports, dotted, floor_of, imports_of, modules

# What a floor may import of ours besides itself.
BELOW = {
    "units": set(),
    "domain": {"units"},
    "files": {"domain", "units"},
    "estimate": {"domain", "units"},
    "force_platform": {"estimate", "domain", "units"},
    "problem": {"estimate", "files", "domain", "units"},
    "rules": {"problem", "estimate", "files", "domain", "units"},
    "audit": {"rules", "problem", "estimate", "files", "domain", "units"},
    "solve": {"rules", "problem", "estimate", "files", "domain", "units"},
    # A report puts a result into words: it may know what a conflict or a change is, never the solver itself.
    "report": {"solve", "rules", "problem", "force_platform", "estimate", "files", "domain", "units"},
    "cards": {"force_platform", "estimate", "files", "domain", "units"},
    "cli": {
        "report",
        "cards",
        "solve",
        "audit",
        "rules",
        "problem",
        "force_platform",
        "estimate",
        "files",
        "domain",
        "units",
    },
}
ONLY_ON = {
    "ortools": {"solve"},
    "reportlab": {"cards"},
    "icalendar": {"cards"},
    "click": {"cli"},
    "numpy": {"force_platform"},
    "ruamel": {"files"},
}


def test_every_floor_is_known():
    found = {floor_of(dotted(path)) for path in modules()}
    assert found == set(BELOW), "a new floor needs its arrows here and its line in DEVELOPERS.md"


@pytest.mark.parametrize("floor", BELOW)
def test_arrows_point_downwards(floor):
    wrong = [
        str(found)
        for found in all_imports()
        if found.name.startswith("planner.") and floor_of(found.module) == floor
        if floor_of(found.name) not in BELOW[floor] | {floor}
    ]
    assert not wrong, "\n".join(wrong)


@pytest.mark.parametrize("package", ONLY_ON)
def test_a_package_is_met_on_one_floor(package):
    users = [found for found in all_imports() if found.name.split(".")[0] == package]
    assert users, f"{package} is used by nothing: take it out of pyproject.toml, or out of here"
    wrong = [str(found) for found in users if floor_of(found.module) not in ONLY_ON[package]]
    assert not wrong, "\n".join(wrong)


def test_commands_import_heavy_floors_only_when_they_run():
    light = ("planner", "planner.domain.findings")
    wrong = []
    for path in sorted((PACKAGE / "cli").glob("*.py")):
        text = path.read_text("utf-8")
        if path.stem in ("app", "output", "__init__") or "\n@click.command(" in text:
            lines = text.splitlines()
            at_top = [found for found in imports_of(path) if not lines[found.line - 1].startswith(" ")]
            ours = [found for found in at_top if found.name.startswith("planner")]
            wrong += [str(found) for found in ours if found.name not in light and floor_of(found.name) != "cli"]
    assert not wrong, "\n".join(wrong)


def test_paragraphs_are_made_in_one_place():
    makers = [dotted(path) for path in modules() if "Paragraph(" in path.read_text("utf-8")]
    assert makers == ["planner.cards.text"], "reportlab reads a paragraph's text as markup: go through cards/text.py"


def test_the_check_of_a_block_needs_no_solver():
    """Walked through every module that a block's check can reach, imports inside functions included."""
    by_module = {dotted(path): list(imports_of(path)) for path in modules()}
    waiting, seen = ["planner.cli.check", "planner.cli.block_check", "planner.audit"], set()
    while waiting:
        module = waiting.pop()
        if module in seen or module not in by_module:
            continue
        seen.add(module)
        waiting += [found.name for found in by_module[module] if not found.only_types]
    assert "planner.rules.registry" in seen
    assert not {module for module in seen if module.startswith("planner.solve")}
