"""Tab completes what a coach would have to look up: a block's sessions, templates, movements."""

from __future__ import annotations

import pytest
from click.shell_completion import ShellComplete

from planner.cli.app import jumpblock

BLOCK = "weeks:\n  - sessions:\n      - id: w1s1\n        items:\n          - id: w1s1i1\n      - id: w1s2\n"


def completed(*words: str) -> list[tuple[str, str]]:
    *before, last = words
    shell = ShellComplete(jumpblock, {}, "jumpblock", "_JUMPBLOCK_COMPLETE")
    return [(item.type, item.value) for item in shell.get_completions(list(before), last)]


@pytest.mark.parametrize("command", ["log", "change"])
def test_sessions_of_the_block(command, tmp_path):
    block = tmp_path / "block.yaml"
    block.write_text(BLOCK, "utf-8")
    assert completed(command, str(block), "w") == [("plain", "w1s1"), ("plain", "w1s2")]
    assert completed(command, str(block), "w1s2") == [("plain", "w1s2")]
    assert completed(command, str(tmp_path / "no-such.yaml"), "w") == []


@pytest.mark.parametrize("words", [("plan", "ana.yaml"), ("rules",), ("squad", "plan", "squad.yaml")])
def test_templates_by_name_and_else_a_file(words):
    assert ("plain", "eight-week") in completed(*words, "--template", "ei")
    assert completed(*words, "--template", "./mine") == [("file", "./mine")]


@pytest.mark.parametrize(
    "words",
    [("library", "show"), ("library", "edit"), ("library", "remove"), ("library", "add", "--like"), ("why", "b")],
)
def test_movements_of_the_library(words):
    assert completed(*words, "back-sq") == [("plain", "back-squat")]
    assert completed(*words, "barbel") == []  # a thing, not a movement


@pytest.mark.parametrize("words", [("gap",), ("plan",), ("cards",), ("why",), ("check",)])
def test_files(words):
    assert completed(*words, "./an") == [("file", "./an")]
