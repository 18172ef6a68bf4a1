"""Files are read by a parser in C, and by a slower one where that refuses: what the first accepts, both read alike."""

from __future__ import annotations

import random

import pytest

from planner.files import syntax
from planner.files.load import yaml_files
from planner.files.locate import LIBRARY, TEMPLATES, packaged
from planner.files.syntax import read_tree

yaml = pytest.importorskip("yaml", reason="without it there is one parser")
TEXTS = [path.read_text("utf-8") for name in (LIBRARY, TEMPLATES) for _, path in yaml_files(packaged(name))]
# What means something in YAML, in other scripts, or to those who count characters.
ODD = [*":-?,[]{}#&*!|>'\"%@` \n", ": ", "- ", " #", "''", "\\", "\\n", "\\/", "\r\n", "---", "...", "<<", "? ", "~"]
ODD += ["|-\n", "\n\n", "\n- ", "é", "e\u0301", "日", "\N{RUNNER}", "\u00a0", "\u3000"]


def mutant(draw: random.Random) -> str:
    """Some lines of a shipped file with a few characters more, fewer or changed."""
    lines = draw.choice(TEXTS).split("\n")
    first = draw.randrange(len(lines))
    text = "\n".join(lines[first : first + draw.choice((1, 3, 6))])
    for _ in range(draw.choice((1, 1, 2, 4))):
        at = draw.randrange(len(text) + 1)
        text = text[:at] + draw.choice(("", *ODD)) + text[at + draw.choice((0, 0, 1, 3)) :]
    return text


def test_mutants_are_read_alike():
    draw, read = random.Random(5), 0
    for _ in range(400):
        text = mutant(draw)
        quick = syntax._quick_tree(text)
        if quick is not None:
            read += 1
            assert quick == syntax._careful_tree(text), text
    assert read > 100  # the sample is not of refusals alone


@pytest.mark.skipif(not yaml.__with_libyaml__, reason="PyYAML has no parser in C here")
def test_every_shipped_file_is_read_by_the_quick_one():
    assert all(syntax._quick_tree(text) is not None for text in TEXTS)


@pytest.mark.parametrize("text", ["a: 1\nb:\n  - 2.5 kg # heavy\n", "a:\nb: 1", "a: b\tc", "a: [1", "a: 1\na: 2"])
def test_without_the_parser_in_c_a_file_is_the_same(text, monkeypatch):
    with_it = read_tree(text.encode(), "a.yaml")
    monkeypatch.setattr(yaml, "__with_libyaml__", False)
    assert read_tree(text.encode(), "a.yaml") == with_it
