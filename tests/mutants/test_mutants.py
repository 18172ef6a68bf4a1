"""The tool itself: a change that a test can see is killed, one that changes nothing lives, no file is touched."""

from __future__ import annotations

import ast
import subprocess
import sys
from pathlib import Path

import pytest

from tests.mutants.changes import mutants_of, mutated

ROOT = Path(__file__).parents[2]
TRIAL = """
import ast, sys
from pathlib import Path
from tests.mutants.trial import is_killed
source = Path(sys.argv[1]).read_text("utf-8")
print(is_killed("planner/units.py", ast.parse(source), ["tests/units/test_quantities.py"], Path.cwd(), 120.0))
"""


@pytest.mark.parametrize(("was", "now", "killed"), [("0.3048", "0.3058", True), ("", "", False)])
def test_a_change_that_shows_is_killed_and_none_at_all_lives(tmp_path: Path, was: str, now: str, killed: bool) -> None:
    before = (ROOT / "planner/units.py").read_text("utf-8")
    assert was in before
    (tmp_path / "units.py").write_text(before.replace(was, now), "utf-8")
    words = [sys.executable, "-c", TRIAL, str(tmp_path / "units.py")]
    said = subprocess.run(words, cwd=ROOT, capture_output=True, text=True, check=True)
    assert said.stdout.split() == [str(killed)]
    assert (ROOT / "planner/units.py").read_text("utf-8") == before


SOURCE = '''
LIMIT = 3

def told(low, high, items):
    """Words."""
    if low < 2 and not items:
        return max(low, high)
    for item in items:
        yield item + 1
'''


def test_each_change_is_one_change_inside_a_function(tmp_path: Path) -> None:
    (tmp_path / "source.py").write_text(SOURCE, "utf-8")
    found = mutants_of("source.py", tmp_path)
    changed = [ast.unparse(mutated(mutant, tmp_path)) for mutant in found]
    whole = ast.unparse(ast.parse(SOURCE))
    assert len(set(changed)) == len(found) and whole not in changed
    assert all("LIMIT = 3" in text for text in changed)
    told = {(mutant.was, mutant.now) for mutant in found}
    assert {("low < 2", "low <= 2"), ("max(low, high)", "min(low, high)"), ("item + 1", "item - 1")} <= told
    assert {("not items", "items"), ("2", "3"), ("yield (item + 1)", "yield from ()")} <= told
