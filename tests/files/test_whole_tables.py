"""A table without one of its words, or a curve that asks for nothing, is told by check and not by what uses it."""

from __future__ import annotations

from pathlib import Path

import pytest

from planner.domain.findings import Finding
from planner.files.load import load_bytes

TEMPLATES = Path(__file__).parents[2] / "templates"


def findings(name: str, old: str, new: str) -> list[Finding]:
    text = (TEMPLATES / name).read_text("utf-8")
    assert old in text
    return list(load_bytes(text.replace(old, new, 1).encode(), "coach.yaml").findings)


@pytest.mark.parametrize(
    ("line", "table", "word"),
    [
        ("  test: Test\n", "parts", "test"),
        ("  deload: easy week\n", "roles", "deload"),
        (", high: high}", "tiers", "high"),
        ("  speed-exposure: Fast force and speed\n", "qualities", "speed-exposure"),
        ("  hamstring: Hamstring\n", "joints", "hamstring"),
    ],
)
def test_every_table_of_the_cards_has_all_its_words(line: str, table: str, word: str) -> None:
    (finding,) = findings("cards/standard.yaml", line, "}" if line.endswith("}") else "")
    assert (finding.code, finding.hint) == ("not-complete", f"add a line for {word}")
    assert finding.source_line.startswith(f"{table}:")


def test_no_shortfall_is_free() -> None:
    (finding,) = findings("limits/standard.yaml", "contact: 1, high_contact", "contact: 0, high_contact")
    assert finding.code == "out-of-range" and finding.source_line.startswith("prices:")


@pytest.mark.parametrize("line", ["base: 1.45, slope: 0.55, cap: 2.1"])
def test_a_curve_that_asks_for_nothing_is_told_on_its_line(line: str) -> None:
    (finding,) = findings("benchmarks/standard.yaml", line, line.replace("cap: 2.1", "cap: 0"))
    assert finding.code == "not-complete" and "asks for nothing" in finding.message
    assert "cap: 0" in finding.source_line
