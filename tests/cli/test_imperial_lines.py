"""An athlete written in pounds and inches is told pounds and inches, by every command and on every card."""

from __future__ import annotations

import io
import re
from pathlib import Path

import pytest
from pypdf import PdfReader

from planner.cli import main
from planner.files.load import load_bytes
from tests.cli.imperial import SOURCE, plan_imperial
from tests.solve.demos import shipped_library

# Runs are measured in whole metres, since the movements are, and speeds in m/s; a stop rule says centimetres and, in
# brackets, inches.
METRIC = re.compile(r"\d[\d.]* ?(?:kg|cm|mm)\b(?! \()|\d\.\d+ m\b(?!/s)")
COMMANDS = {
    "gap": "gap {athlete}",
    "test": "test {athlete} --show",
    "the block's story": "why {block}",
    "a week": "why {block} --week 1",
    "check": "check {block}",
    "change": "change {block} w2s1 --sets 1=2 -o {folder}/changed.yaml",
    "progress": "progress {block} --log {folder}/log.yaml",
    "calendar": "calendar {block} -o -",
    "cards": "cards {block} -o -",
    "cards to come": "cards {block} --log {folder}/log.yaml --from 2025-09-15 -o -",
}


@pytest.fixture(scope="module")
def folder(tmp_path_factory) -> Path:
    made = tmp_path_factory.mktemp("imperial")
    plan_imperial(made)
    block = f"{made}/block.yaml"
    told = ["--effort", "7", "--minutes", "60", "--item", "2", "185 lb x 4; 2 left", "--log", f"{made}/log.yaml"]
    assert main(["log", block, "w1s1", *told]) == 0
    return made


@pytest.mark.parametrize("name", COMMANDS)
def test_no_line_is_metric(name, folder, capsysbinary):
    words = COMMANDS[name].format(athlete=folder / "petra.yaml", block=folder / "block.yaml", folder=folder)
    assert main(words.split()) == 0
    printed = capsysbinary.readouterr()
    text = _text(printed.out) + printed.err.decode("utf-8")
    assert _metric(text) == []


def test_the_block_says_pounds_and_inches(folder):
    assert _metric((folder / "block.yaml").read_text("utf-8")) == []


def test_a_line_of_the_file_goes_before_how_the_body_is_written():
    written = SOURCE.read_text("utf-8")
    pounds = written.replace("body_mass: 71 kg", "body_mass: 156 lb").replace("stature: 1.81 m", "stature: 5 ft 11 in")
    for lines, units in (
        (pounds, ("kg", "cm")),  # print_as says so
        (pounds.replace("print_as: {mass: kg, length: cm, paper: a4}", "print_as: {paper: letter}"), ("lb", "in")),
        (written.replace("print_as: {mass: kg, length: cm, paper: a4}\n", ""), ("kg", "cm")),
    ):
        read = load_bytes(lines.encode(), "petra.yaml").value.print_as
        assert (read.mass, read.length) == units


def _text(raw: bytes) -> str:
    if raw.startswith(b"%PDF"):
        return "\n".join(page.extract_text() for page in PdfReader(io.BytesIO(raw)).pages)
    return raw.decode("utf-8")


def _metric(text: str) -> list[str]:
    """What is metric in a text, its lines run together and the names of movements taken out."""
    run_on = re.sub(r"\s+", " ", text)
    for movement in shipped_library():
        run_on = run_on.replace(movement.name, "").replace(movement.id, "")
    return [run_on[max(0, found.start() - 50) : found.end() + 20] for found in METRIC.finditer(run_on)]
