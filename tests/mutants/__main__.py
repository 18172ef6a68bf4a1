"""How many small changes of meaning the tests of a floor notice: ``python -m tests.mutants --floor rules``."""

from __future__ import annotations

import argparse
import functools
import gc
import random
import signal
import sys
import time
from collections import Counter
from collections.abc import Callable
from pathlib import Path
from typing import NoReturn

from ruamel.yaml import YAML

from tests.mutants.changes import Mutant, mutants_of
from tests.mutants.reach import NotGreen, Reach, reaches_of
from tests.mutants.trial import Functions, Job, Tests, forked, with_tests
from tests.rules.kept_blocks import shipped_problem
from tests.solve import demos

ROOT = Path(__file__).parents[2]
BAR, SAMPLE, SEED = 0.9, 300, 1
ENOUGH = 12.0  # seconds of the processor, lines noted: of the tests that a mutant is tried on, the quickest first
SLOWER = 3.0  # times as long as they took before, plus LOST seconds: then a mutant has run out of time
LOST = 10.0
CONTROLS = 3
A_TEST = 0.01  # seconds that any test takes
LATER = 3  # times as long waits a test that is only later in the file of one that runs the line
# Whole pages as pictures, drawn in a moment: what moves on paper shows there first.
FIRST = ("tests/cards/test_looks.py",)
# The folders, or files in them, whose tests a floor is held to; tests that take long are left out (reach.py).
TESTS = {
    "rules": ("rules", "common_practice", "revise"),
    "estimate": ("estimate", "published", "report", "upgrade"),
    "problem": ("problem", "revise"),
    "cards": ("cards", "calendar_file"),
    "past": ("past",),
    "files": (
        "files",
        "library_commands",
        "library",
        "past",
        "squads/test_*_sheet.py",
        "squads/test_calc_files.py",
        "cli/test_test_command.py",
        "cli/test_figures_as_written.py",
    ),
}
NAMES = {0: "living", 1: "killed", None: "out of time"}


def main() -> int:
    asked = argparse.ArgumentParser(prog="python -m tests.mutants", description=__doc__)
    asked.add_argument("--floor", choices=TESTS, required=True)
    asked.add_argument("--sample", type=int, default=SAMPLE)
    asked.add_argument("--jobs", type=int, default=1)
    asked.add_argument("--seed", type=int, default=SEED)
    asked.add_argument("--file", default="", help="only files whose path holds this")
    said = asked.parse_args()
    signal.signal(signal.SIGTERM, _stop)
    chosen = sample(said.floor, said.sample, said.seed, said.file)
    if not chosen:
        print(f"{said.floor}: no mutants, nothing to run", file=sys.stderr)
        return 2
    return with_tests(tests_of(said.floor), lambda tests: measured(said.floor, chosen, tests, said.jobs))


def measured(floor: str, chosen: list[Mutant], tests: Tests, at_once: int) -> int:
    read_once(floor)
    functions = Functions(f"planner.{floor}")
    try:
        reaches = reaches_of(tests, f"planner/{floor}", ROOT, at_once=at_once)
        quick = [one for one in reaches if one.seconds is not None]
        slow = [one.test for one in reaches if one.seconds is None]
        print(f"{len(quick)} tests; too slow: {', '.join(slow) or 'none'}", flush=True)
        lists = [tried_on(mutant, quick) for mutant in chosen]
        unchanged(tests, lists[:: len(lists) // CONTROLS + 1], at_once)
    except NotGreen as trouble:
        print(trouble, file=sys.stderr)
        return 2
    return 0 if told(floor, chosen, lists, functools.partial(trial, tests, functions), at_once) >= BAR else 1


def _stop(*_: object) -> NoReturn:
    sys.exit(143)


def read_once(floor: str) -> None:
    """What no change on the floor can reach is made before any fork: shipped files, and problems for the rules."""
    for kept in [one for one in gc.get_objects() if isinstance(one, functools._lru_cache_wrapper)]:
        if kept.__module__.startswith("tests."):  # made while the tests were found, maybe by what is to be changed
            kept.cache_clear()
    if floor != "files":
        demos.shipped_library()
        demos.shipped_benchmarks()
        for athlete, template in demos.DEMOS.values():
            demos.athlete(athlete)
            demos.template(template)
    if floor in ("rules", "cards"):
        for demo in demos.DEMOS:
            shipped_problem(demo)


def tests_of(floor: str) -> list[str]:
    patterns = [one if one.endswith(".py") else f"{one}/test_*.py" for one in TESTS[floor]]
    paths = [path for pattern in patterns for path in sorted((ROOT / "tests").glob(pattern))]
    return [path.relative_to(ROOT).as_posix() for path in paths]


def unchanged(tests: Tests, lists: list[list[Reach]], at_once: int) -> None:
    """Some mutants' tests in their order, nothing changed: they must pass, or what they fail on is not the mutant."""
    for _, ended in forked([trial(tests, None, "unchanged", None, found) for found in lists], at_once):
        if ended.code != 0:
            raise NotGreen(f"without a change, the tests of a mutant do not pass:\n{ended.said[-2000:]}")


def tried_on(mutant: Mutant, quick: list[Reach]) -> list[Reach]:
    """The tests that run a line of its statement, as many as are enough: quick ones first, each function in its turn.

    Pictures (FIRST) come before all others, then tests that name its file, such as the cases of a rule. Those that come
    later in the files of these may use what these have made and kept; they wait longer.
    """
    lines, files = range(mutant.lines[0], mutant.lines[1] + 1), set[str]()
    count, waits = Counter[str](), []
    direct = {one.test for one in quick if not one.lines.get(mutant.path, frozenset()).isdisjoint(lines)}
    for one in quick:
        if one.test in direct:
            files.add(one.file)
        if one.file in files:
            waits.append((one.test not in direct, one.seconds or 0, one.test, one))
    turns = []
    for later, seconds, test, one in sorted(waits, key=lambda wait: wait[:3]):
        function = test.partition("[")[0]
        count[function] += 1
        turn = count[function] * (seconds + A_TEST) * (LATER if later else 1)
        turns.append((later or one.file not in FIRST, later or not _names(test, mutant), turn, test, one))
    left, found = ENOUGH, []
    for *_, one in sorted(turns, key=lambda turn: turn[:4]):
        if left > 0:
            found.append(one)
            left -= one.seconds or 0
    return found


def _names(test: str, mutant: Mutant) -> bool:
    stem = Path(mutant.path).stem
    return stem in test or stem.replace("_", "-") in test


def sample(floor: str, size: int, seed: int, part: str = "") -> list[Mutant]:
    paths = sorted(path.relative_to(ROOT).as_posix() for path in (ROOT / "planner" / floor).rglob("*.py"))
    everything = [mutant for path in paths for mutant in mutants_of(path, ROOT)]
    equal = {(one["path"], one["line"], one["was"], one["now"]) for one in equal_ones()}
    open_ones = [one for one in everything if (one.path, one.text, one.was, one.now) not in equal and part in one.path]
    drawn = random.Random(seed).sample(open_ones, min(size, len(open_ones)))
    return sorted(drawn, key=lambda one: (one.path, one.place))


def equal_ones() -> list[dict[str, str]]:
    return YAML(typ="safe").load((Path(__file__).parent / "equal.yaml").read_text("utf-8"))["equal"]


def told(
    floor: str,
    chosen: list[Mutant],
    tests: list[list[Reach]],
    job: Callable[[str, Mutant, list[Reach]], Job],
    at_once: int,
) -> float:
    """Prints what came of each that was not killed, and the share that was."""
    start, count = time.monotonic(), Counter[str]()
    spent = share = 0.0
    jobs = [job(str(number), mutant, tests[number]) for number, mutant in enumerate(chosen)]
    try:
        for done, ended in forked(jobs, at_once):
            number = int(done.name)
            fate = NAMES.get(ended.code, "broken")
            count[fate] += 1
            spent += ended.seconds
            if fate != "killed":
                print(f"{fate:<12} {chosen[number].name}  ({len(tests[number])} tests)", flush=True)
            if fate == "broken":
                print(ended.said[-600:], file=sys.stderr)
    finally:  # a run that is cut says what it found
        tried = max(1, count.total())
        killed, late, broken = count["killed"], count["out of time"], count["broken"]
        share = (killed + late) / tried
        of = f"{killed} of {count.total()} killed (of a sample of {len(chosen)})"
        print(f"{floor}: {of}, {late} out of time, {broken} broken: {share:.0%}; bar {BAR:.0%}")
        seconds = f"{spent / tried:.1f} seconds of the processor a mutant"
        print(f"{seconds}, {(time.monotonic() - start) / tried:.1f} by the clock", flush=True)
    return share


def trial(tests: Tests, functions: Functions | None, name: str, mutant: Mutant | None, reaches: list[Reach]) -> Job:
    names, seconds = [one.test for one in reaches], sum(one.seconds or 0 for one in reaches)

    def work() -> int:
        if functions and mutant:
            functions.put_in(mutant, ROOT)
        return tests.run(names)

    return Job(name, work if names else lambda: 0, LOST + SLOWER * seconds)


if __name__ == "__main__":
    sys.exit(main())
