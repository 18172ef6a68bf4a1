"""Arrows between the floors point downwards only, and each heavy package is met on one floor."""

from __future__ import annotations

import ast

import pytest

from tests.architecture.imports import PACKAGE, all_imports, dotted, floor_of, imports_of, modules

BELOW_SOLVE = {"starts", "rules", "problem", "past", "estimate", "files", "domain", "units"}
# What a floor may import of ours besides itself.
BELOW = {
    "units": set(),
    "domain": {"units"},
    "files": {"domain", "units"},
    "estimate": {"domain", "units"},
    "force_platform": {"estimate", "domain", "units"},
    "past": {"estimate", "domain", "units"},
    "problem": {"past", "estimate", "files", "domain", "units"},
    # Sessions of a day in time, and rows over start times.
    "starts": {"domain", "units"},
    "rules": {"problem", "past", "estimate", "files", "domain", "units"},
    "audit": BELOW_SOLVE,
    # A block keeps words that cards print.
    "solve": {"prescription"} | BELOW_SOLVE,
    # A report puts a result into words: it may know what a conflict or a change is, never the solver itself.
    "report": {"prescription", "force_platform", "solve"} | BELOW_SOLVE,
    # What a card, a calendar and a report say of an item: words alone, nothing drawn.
    "prescription": {"domain", "units"},
    "calendar_file": {"prescription", "domain"},
    "cards": {"starts", "prescription", "force_platform", "estimate", "domain", "units"},
    "jobs": {"report", "cards", "calendar_file", "prescription", "solve", "audit", "force_platform"} | BELOW_SOLVE,
    "cli": {"jobs", "report", "cards", "calendar_file", "solve", "audit", "force_platform"} | BELOW_SOLVE,
}
ONLY_ON = {
    "ortools": {"solve"},
    "reportlab": {"cards"},
    "icalendar": {"calendar_file"},
    "click": {"cli"},
    "numpy": {"force_platform", "past"},
    "ruamel": {"files"},
    "yaml": {"files"},
    "openpyxl": {"files"},
}
# What talks to a terminal or ends the process.
TALK = ("click", "sys", "logging")


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


def test_jobs_never_print_or_exit():
    """Jobs return results and raise findings, so that a command, a test or another job can use them."""
    wrong = [str(found) for found in all_imports() if floor_of(found.module) == "jobs" and found.name in TALK]
    for path in sorted((PACKAGE / "jobs").glob("*.py")):
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if isinstance(node, ast.Name) and node.id in ("print", "input", "exit", "quit"):
                wrong.append(f"{path.name}:{node.lineno} uses {node.id}")
    assert not wrong, "\n".join(wrong)


def test_paragraphs_are_made_in_one_place():
    makers = [dotted(path) for path in modules() if "Paragraph(" in path.read_text("utf-8")]
    assert makers == ["planner.cards.card_text"], "reportlab reads its text as markup: go through cards/card_text.py"


def test_the_check_of_a_block_needs_no_solver():
    """Walked through every module that a block's check can reach, imports inside functions included."""
    by_module = {dotted(path): list(imports_of(path)) for path in modules()}
    waiting, seen = ["planner.cli.check", "planner.jobs.check_block", "planner.audit"], set()
    while waiting:
        module = waiting.pop()
        if module in seen or module not in by_module:
            continue
        seen.add(module)
        waiting += [found.name for found in by_module[module] if not found.only_types]
    assert "planner.rules.registry" in seen
    assert not {module for module in seen if module.startswith("planner.solve")}


def test_modules_import_each_other_one_way():
    """Imports inside functions count; those for type checkers alone do not, since they need nothing at run time."""
    below: dict[str, set[str]] = {dotted(path): set() for path in modules()}
    for found in all_imports():
        if not found.only_types and found.name in below:
            below[found.module].add(found.name)
    while free := [module for module, names in below.items() if not names & below.keys()]:
        for module in free:
            del below[module]
    assert not below, f"these import each other in a circle, or what does: {', '.join(sorted(below))}"
