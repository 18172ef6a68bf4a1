"""The figures of a single rule: under its id in a template or a limits file, read by a model in its own file."""

from __future__ import annotations

from pathlib import Path

import pytest

from planner.files.schema import schema
from planner.jobs.check_files import FileChecker
from planner.rules.deficit_loaded import DeficitLimits
from planner.rules.own_limits import OwnLimits, load_template, own_limits
from planner.rules.registry import classes, rule_named
from tests.upgrade.older_folder import older_folder

TEMPLATES = Path(__file__).parents[2] / "templates"
LINE = "  deficit-loaded: {unloaded_one_in: 3, twelfth_over: 2}"


def limits_with(folder: Path, line: str) -> Path:
    """The shipped limits with another line for this rule, in a folder of their own."""
    text = (TEMPLATES / "limits/standard.yaml").read_text("utf-8")
    assert text.count(LINE) == 1
    path = folder / "templates/limits/standard.yaml"
    path.parent.mkdir(parents=True)
    path.write_text(text.replace(LINE, line), "utf-8")
    return path


def template_with(folder: Path, line: str, own: str = "") -> Path:
    """A shipped template that names those limits, with lines of its own."""
    limits_with(folder, line)
    path = folder / "templates/blocks/eight-week.yaml"
    path.parent.mkdir(parents=True)
    path.write_text((TEMPLATES / "blocks/eight-week.yaml").read_text("utf-8") + own, "utf-8")
    return path


@pytest.mark.parametrize(
    ("line", "code", "words"),
    [
        ("  deficit-load: {unloaded_one_in: 3, twelfth_over: 2}", "unknown-field", "did you mean 'deficit-loaded'?"),
        ("  deficit-loaded: {unloaded_one_in: 5, twelfth_over: 2}", "not-a-choice", "unloaded_one_in"),
        ("  deficit-loaded: {unloaded_one_in: 3}", "missing-field", "'twelfth_over' is missing"),
    ],
)
def test_a_wrong_figure_is_found_on_its_line(tmp_path: Path, line: str, code: str, words: str) -> None:
    template = template_with(tmp_path, line)
    limits = tmp_path / "templates/limits/standard.yaml"
    number = limits.read_text("utf-8").splitlines().index(line) + 1
    for found in (FileChecker().check(limits), FileChecker().check(template), load_template(template).findings):
        (finding,) = found
        assert (finding.line, finding.code) == (number, code)
        assert words in f"{finding.message} {finding.hint}"
    assert load_template(template).value is None


def test_a_template_may_have_one_figure_otherwise(tmp_path: Path) -> None:
    path = template_with(tmp_path, LINE, "rules: {deficit-loaded: {unloaded_one_in: 4}}\n")
    assert DeficitLimits.of(load_template(path).require()) == DeficitLimits(unloaded_one_in=4, twelfth_over=2)


def test_a_template_of_before_asks_nothing() -> None:
    template = load_template(older_folder() / "templates/blocks/eight-week.yaml").require()
    assert all(kind.of(template) is None for kind in classes(OwnLimits))


def test_the_model_is_in_the_file_of_its_rule() -> None:
    for kind in classes(OwnLimits):
        assert type(rule_named(kind.rule)).__module__ == kind.__module__


@pytest.mark.parametrize("name", ["template", "limits"])
def test_an_editor_knows_the_figures(name: str) -> None:
    known = schema(name, own_limits())["$defs"]
    assert "deficit-loaded" in known["OwnLimits"]["properties"]
    assert known["DeficitLimits"]["properties"]["unloaded_one_in"]["enum"] == [2, 3, 4, 6]
    assert ("required" in known["DeficitLimits"]) == (name == "limits")  # a template may leave figures to its limits
