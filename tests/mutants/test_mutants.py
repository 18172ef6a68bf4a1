"""The tool itself: a change that a test can see is killed, one that changes nothing lives, no file is touched."""

from __future__ import annotations

import ast
import subprocess
import sys
from pathlib import Path

import pytest

from tests.mutants.__main__ import NAMES, equal_ones
from tests.mutants.changes import mutants_of, mutated
from tests.mutants.reach import NotGreen, reaches_of
from tests.mutants.trial import BROKEN, Job, forked

ROOT = Path(__file__).parents[2]
TRIAL = """
import ast, sys
from pathlib import Path
from tests.mutants.trial import Job, forked, put_in, run_tests
source = Path(sys.argv[1]).read_text("utf-8")
def work():
    put_in("planner/units.py", ast.parse(source), Path.cwd())
    return run_tests(["tests/units/test_quantities.py"])
for _, ended in forked([Job("one", work, 60.0)]):
    print(ended.code)
"""


@pytest.mark.parametrize(
    ("was", "now", "code"),
    [("0.3048", "0.3058", "1"), ("", "", "0"), ("from __future__", "import no_such_module\nfrom __future__", "70")],
)
def test_a_change_that_shows_fails_a_test_and_no_file_is_touched(tmp_path: Path, was: str, now: str, code: str) -> None:
    before = (ROOT / "planner/units.py").read_text("utf-8")
    assert was in before
    (tmp_path / "units.py").write_text(before.replace(was, now), "utf-8")
    words = [sys.executable, "-c", TRIAL, str(tmp_path / "units.py")]
    said = subprocess.run(words, cwd=ROOT, capture_output=True, text=True, check=True)
    assert said.stdout.split() == [code]
    assert (ROOT / "planner/units.py").read_text("utf-8") == before


def test_work_that_never_ends_runs_out_of_time_and_trouble_of_our_own_is_no_kill() -> None:
    def spin() -> int:
        while True:
            pass

    def fall() -> int:
        raise ValueError

    ends = {job.name: ended.code for job, ended in forked([Job("spin", spin, 0.5), Job("fall", fall, 5.0)])}
    assert ends == {"spin": None, "fall": BROKEN}
    assert {NAMES.get(code, "broken") for code in ends.values()} == {"out of time", "broken"}


def test_a_file_that_fails_before_any_change_is_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "test_red.py").write_text("def test_red():\n    assert False\n", "utf-8")
    with pytest.raises(NotGreen, match=r"test_red\.py does not pass as it is \(exit 1\)"):
        reaches_of(["test_red.py"], tmp_path, tmp_path / "kept")


def test_every_mutant_called_equal_is_still_one_of_its_file() -> None:
    for one in equal_ones():
        found = {(mutant.text, mutant.was, mutant.now) for mutant in mutants_of(one["path"], ROOT)}
        assert (one["line"], one["was"], one["now"]) in found and one["reason"]


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
