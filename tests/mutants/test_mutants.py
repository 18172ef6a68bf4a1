"""The tool itself: a change that a test can see is killed, one that changes nothing lives, no file is touched."""

from __future__ import annotations

import ast
import subprocess
import sys
from pathlib import Path

import pytest

from tests.mutants.__main__ import ENOUGH, FIRST, equal_ones, tried_on
from tests.mutants.changes import Mutant, mutants_of, mutated
from tests.mutants.reach import Reach

ROOT = Path(__file__).parents[2]
PUT_IN = """
import sys
from pathlib import Path
from tests.mutants.changes import mutants_of
from tests.mutants.trial import Functions, Job, forked, with_tests

root = Path.cwd()
[mutant] = [one for one in mutants_of("planner/problem/training_days.py", root) if one.now == sys.argv[1]]

def work(tests):
    functions = Functions("planner.problem")
    def changed():
        functions.put_in(mutant, root)
        return tests.run(list(tests.items))
    for run in (changed, lambda: tests.run(list(tests.items))):
        [(_, ended)] = forked([Job("one", run, 60.0)])
        print("ended", ended.code)
    return 0

with_tests(["tests/problem/test_calendar.py"], work)
"""
NOTED = """
from pathlib import Path
from tests.mutants.reach import NotGreen, reaches_of
from tests.mutants.trial import with_tests

def work(tests):
    try:
        for one in reaches_of(tests, "planner/floor", Path.cwd(), Path("kept")):
            print(one.test, one.lines)
    except NotGreen as red:
        print(red)
    return 0

with_tests(["test_one.py"], work)
"""
ENDLESS = """
from tests.mutants.__main__ import NAMES
from tests.mutants.trial import BROKEN, Job, forked

def spin():
    while True:
        pass

def fall():
    raise ValueError

ends = {job.name: ended.code for job, ended in forked([Job("spin", spin, 0.5), Job("fall", fall, 5.0)])}
assert ends == {"spin": None, "fall": BROKEN}
for name, code in sorted(ends.items()):
    print(name, NAMES.get(code, "broken"))
"""


def run(script: str, *words: str, cwd: Path = ROOT) -> str:
    """Of a process of its own: pytest inside pytest shares too much."""
    asked = [sys.executable, "-c", f"import sys; sys.path[:0] = ['.', {str(ROOT)!r}]\n{script}", *words]
    return subprocess.run(asked, cwd=cwd, capture_output=True, text=True, check=True).stdout


def test_a_change_that_shows_fails_a_test_in_its_own_fork_alone_and_no_file_is_touched() -> None:
    before = (ROOT / "planner/problem/training_days.py").read_text("utf-8")
    said = run(PUT_IN, "date.weekday() in training_days")
    assert [line for line in said.splitlines() if line.startswith("ended")] == ["ended 1", "ended 0"]
    assert (ROOT / "planner/problem/training_days.py").read_text("utf-8") == before


def test_work_that_never_ends_runs_out_of_time_and_trouble_of_our_own_is_no_kill() -> None:
    assert run(ENDLESS).splitlines() == ["fall broken", "spin out of time"]


FLOOR = "def half(x):\n    if x < 0:\n        return 0\n    return x / 2\n"
TESTS = """
from planner.floor.half import half

def test_more():
    assert half(4) == {}

def test_less():
    assert half(-1) == 0
"""


@pytest.mark.parametrize(
    ("half", "says"),
    [
        (2, ["test_more {'planner/floor/half.py': frozenset({1, 2, 4})}", "half.py': frozenset({1, 2, 3})}"]),
        (3, ["test_one.py::test_more does not pass as it is (exit 1)"]),
    ],
)
def test_the_lines_of_each_test_are_noted_and_a_test_that_fails_before_any_change_is_refused(
    tmp_path: Path, half: int, says: list[str]
) -> None:
    (tmp_path / "planner/floor").mkdir(parents=True)
    (tmp_path / "planner/__init__.py").touch()
    (tmp_path / "planner/floor/half.py").write_text(FLOOR, "utf-8")
    (tmp_path / "test_one.py").write_text(TESTS.format(half), "utf-8")
    said = run(NOTED, cwd=tmp_path)
    assert all(words in said for words in says), said


def test_a_mutant_is_tried_on_tests_that_name_its_file_then_on_quick_ones_of_its_lines_until_that_is_enough() -> None:
    mutant = Mutant("planner/a_file.py", 5, 1, (4, 6), 0, "", "", "")
    there, elsewhere = {"planner/a_file.py": frozenset({6})}, {"planner/a_file.py": frozenset({7})}
    reaches = [
        Reach("one::before", 0.1, elsewhere),
        Reach("one::slow", 2.0, there),
        Reach("one::after", 0.1, elsewhere),
        Reach("one::quick", 1.0, there),
        Reach("two::elsewhere", 0.1, elsewhere),
        Reach("three::case[a]", 0.2, there),
        Reach("three::case[b]", 0.3, there),
        Reach("three::case[a-file]", 0.3, there),
        Reach("four::long", ENOUGH, there),
        Reach("five::too much", 2 * ENOUGH, there),
        Reach(f"{FIRST[0]}::picture", 3.0, there),
        Reach(f"{FIRST[0]}::other picture", 0.1, elsewhere),
    ]
    found = [one.test.partition("::")[2] for one in tried_on(mutant, reaches)]
    assert found == ["picture", "case[a-file]", "case[a]", "after", "other picture", "case[b]", "quick", "slow", "long"]


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

def nothing():
    yield from ()

def pairs(one, other):
    return zip(one, other, strict=True)
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
    assert ("True", "False") not in told
    assert {("not items", "items"), ("2", "3"), ("yield (item + 1)", "yield from ()")} <= told
