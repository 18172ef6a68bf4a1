"""How many small changes of meaning the tests of a floor notice: ``python -m tests.mutants --floor rules``."""

from __future__ import annotations

import argparse
import random
import signal
import sys
import time
from collections import Counter
from pathlib import Path
from typing import NoReturn

from ruamel.yaml import YAML

from tests.mutants.changes import Mutant, mutants_of, mutated
from tests.mutants.reach import NotGreen, Reach, reaches_of
from tests.mutants.trial import Job, forked, put_in, run_tests

ROOT = Path(__file__).parents[2]
BAR, SAMPLE, SEED = 0.9, 300, 1
SECONDS = 60.0  # of the processor, that one mutant's tests may take
# The folders whose tests a floor is held to; files that take long are left out (reach.py).
TESTS = {
    "rules": ("rules", "common_practice"),
    "estimate": ("estimate", "published", "force_platform", "report"),
    "problem": ("problem", "rules", "estimate"),
    "cards": ("cards", "calendar_file"),
    "files": ("files", "library_commands", "library"),
}
NAMES = {0: "living", 1: "killed", 2: "killed", None: "out of time"}


def main() -> int:
    asked = argparse.ArgumentParser(prog="python -m tests.mutants", description=__doc__)
    asked.add_argument("--floor", choices=TESTS, required=True)
    asked.add_argument("--sample", type=int, default=SAMPLE)
    asked.add_argument("--jobs", type=int, default=1)
    asked.add_argument("--seed", type=int, default=SEED)
    asked.add_argument("--file", default="", help="only files whose path holds this")
    said = asked.parse_args()
    signal.signal(signal.SIGTERM, _stop)
    load_once()
    try:
        reaches = reaches_of(tests_of(said.floor), ROOT)
        held_together(reaches)
    except NotGreen as trouble:
        print(trouble, file=sys.stderr)
        return 2
    chosen = sample(said.floor, said.sample, said.seed, said.file)
    if not chosen or not reaches:
        print(f"{said.floor}: {len(chosen)} mutants and {len(reaches)} test files, nothing to run", file=sys.stderr)
        return 2
    return 0 if told(said.floor, chosen, reaches, said.jobs) >= BAR else 1


def _stop(*_: object) -> NoReturn:
    sys.exit(143)


def load_once() -> None:
    """What tests import, loaded before any fork: packages, and the floors below those that are changed."""
    import click  # noqa: F401
    import icalendar  # noqa: F401
    import numpy  # noqa: F401
    import pytest  # noqa: F401
    import reportlab.platypus  # noqa: F401
    import scipy.sparse  # noqa: F401
    from ortools.sat.python import cp_model  # noqa: F401

    import planner.domain.athlete
    import planner.domain.block
    import planner.domain.template  # noqa: F401

    below = ("planner", "planner.units", "planner.domain")
    above = [name for name in sys.modules if name.startswith("planner") and not name.startswith(below[1:])]
    assert above == ["planner"], f"loaded before the fork, so never changed: {above}"


def tests_of(floor: str) -> list[str]:
    paths = [path for folder in TESTS[floor] for path in sorted((ROOT / "tests" / folder).glob("test_*.py"))]
    return [path.relative_to(ROOT).as_posix() for path in paths]


def held_together(reaches: list[Reach]) -> None:
    """Files that pass one by one must pass in one process too, or what they fail on is not the mutant."""
    files = [reach.test for reach in reaches]
    for _, ended in forked([Job("unchanged", lambda: run_tests(files), 10 * SECONDS)]):
        if ended.code != 0:
            raise NotGreen(f"the tests do not pass together as they are:\n{ended.said[-2000:]}")


def sample(floor: str, size: int, seed: int, part: str = "") -> list[Mutant]:
    paths = sorted(path.relative_to(ROOT).as_posix() for path in (ROOT / "planner" / floor).rglob("*.py"))
    everything = [mutant for path in paths for mutant in mutants_of(path, ROOT)]
    equal = {(one["path"], one["line"], one["was"], one["now"]) for one in equal_ones()}
    open_ones = [one for one in everything if (one.path, one.text, one.was, one.now) not in equal and part in one.path]
    drawn = random.Random(seed).sample(open_ones, min(size, len(open_ones)))
    return sorted(drawn, key=lambda one: (one.path, one.place))


def equal_ones() -> list[dict[str, str]]:
    return YAML(typ="safe").load((Path(__file__).parent / "equal.yaml").read_text("utf-8"))["equal"]


def told(floor: str, chosen: list[Mutant], reaches: list[Reach], at_once: int) -> float:
    """Prints what came of each that was not killed, and the share that was."""
    start, count = time.monotonic(), Counter[str]()
    jobs = [trial(str(number), mutant, reaches) for number, mutant in enumerate(chosen)]
    share = 0.0
    try:
        for job, ended in forked(jobs, at_once):
            fate = NAMES.get(ended.code, "broken")
            count[fate] += 1
            if fate != "killed":
                print(f"{fate:<12} {chosen[int(job.name)].name}", flush=True)
            if fate == "broken":
                print(ended.said[-600:], file=sys.stderr)
    finally:  # a run that is cut says what it found
        tried = max(1, count.total())
        killed, late, broken = count["killed"], count["out of time"], count["broken"]
        share = (killed + late) / tried
        of = f"{killed} of {count.total()} killed (of a sample of {len(chosen)})"
        print(f"{floor}: {of}, {late} out of time, {broken} broken: {share:.0%}; bar {BAR:.0%}")
        print(f"{(time.monotonic() - start) / tried:.1f} seconds a mutant", flush=True)
    return share


def trial(name: str, mutant: Mutant, reaches: list[Reach]) -> Job:
    files = [reach.test for reach in reaches if mutant.function in reach.functions.get(mutant.path, ())]

    def work() -> int:
        put_in(mutant.path, mutated(mutant, ROOT), ROOT)
        return run_tests(files)

    return Job(name, work if files else lambda: 0, SECONDS)


if __name__ == "__main__":
    sys.exit(main())
