"""An athlete written in kilograms and centimetres is told no pounds, inches or yards by any command or on any card."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tests.cli.test_imperial_lines import in_text, run_on
from tests.demos.adult_folder import adult_folder

IMPERIAL = re.compile(
    r"\d ?(?:lb|lbf|yd|ft)\b|\b(?:pounds?|inch(?:es)?|yards?|lbf?|yd)\b"  # whole words that mean nothing else
    r"|\(\d[\d./ ]* in\)|\d in(?=[,.;:)]|$)"  # "in" where it is no preposition: 3 in reserve
)
COMMANDS = {
    "gap": "gap milo.yaml --full",
    "check": "check --verbose milo.yaml",
    "tests": "test milo.yaml --show",
    "the block's story": "why milo-block.yaml",
    "a movement": "why milo-block.yaml back-squat",
    "the block": "check milo-block.yaml",
    "cards": "cards milo-block.yaml -o -",
    "the library's drop jump": "library show drop-jump-30 --athlete milo.yaml",
}


@pytest.fixture(scope="module")
def folder(tmp_path_factory) -> Path:
    return adult_folder(tmp_path_factory.mktemp("metric") / "coach")


@pytest.mark.parametrize("name", COMMANDS)
def test_no_line_is_imperial(name: str, folder: Path, run, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(folder)
    told = run(*COMMANDS[name].split())
    assert told.code == 0, told.err
    text = run_on(in_text(told.raw) + told.err)
    assert text.strip()
    assert [text[max(0, found.start() - 50) : found.end() + 20] for found in IMPERIAL.finditer(text)] == []


def test_the_block_says_no_pounds_and_inches(folder: Path) -> None:
    assert IMPERIAL.findall((folder / "milo-block.yaml").read_text("utf-8")) == []
