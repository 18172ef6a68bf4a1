"""What a coach reads has no word of those who parse files."""

from __future__ import annotations

import pytest

from planner.files.render import format_finding
from planner.files.syntax import read_tree


@pytest.mark.parametrize("text", ["a: 1\na: 2\n", "<<: {a: 1}\n", "{a: 1}: 2\n", "a: 1\n  b: 2\n"])
def test_no_finding_of_the_syntax_says_mapping(text):
    found = read_tree(text.encode(), "ana.yaml")[2]
    assert found
    assert not any("mapping" in format_finding(one).lower() or "scalar" in format_finding(one).lower() for one in found)
