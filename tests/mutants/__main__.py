"""How many small changes of meaning the tests of a floor notice: ``python -m tests.mutants --floor rules``."""

from __future__ import annotations

import argparse
import random
import sys
from concurrent.futures import ProcessPoolExecutor
from multiprocessing import get_context
from pathlib import Path

from ruamel.yaml import YAML

from tests.mutants.changes import Mutant, mutants_of, mutated
from tests.mutants.reach import Reach, reach_of
from tests.mutants.trial import is_killed

ROOT = Path(__file__).parents[2]
BAR, SEED, SLACK = 0.9, 1, 5.0
# A floor's own quick tests, by folder; files that plan blocks are left out.
TESTS = {
    "rules": ("tests/rules",),
    "estimate": ("tests/estimate", "tests/published", "tests/force_platform", "tests/report"),
    "problem": ("tests/problem", "tests/rules"),
    "cards": ("tests/cards", "tests/calendar_file"),
    "files": ("tests/files", "tests/library_commands"),
}
SLOW = ("test_real_blocks.py", "test_readme_walk.py", "test_mutations.py")


def main() -> int:
    asked = argparse.ArgumentParser(prog="tests.mutants", description=__doc__)
    asked.add_argument("--floor", choices=TESTS, required=True)
    asked.add_argument("--sample", type=int, default=300)
    asked.add_argument("--jobs", type=int, default=1)
    asked.add_argument("--seed", type=int, default=SEED)
    said = asked.parse_args()
    load_once()
    chosen = sample(said.floor, said.sample, said.seed)
    reaches = all_reaches(said.floor)
    # Forked, so that every worker begins with the packages loaded and without a line of the planner.
    with ProcessPoolExecutor(said.jobs, mp_context=get_context("fork")) as pool:
        killed = list(pool.map(tried, chosen, [reaches] * len(chosen)))
    lived = [mutant for mutant, dead in zip(chosen, killed, strict=True) if not dead]
    for mutant in lived:
        print(mutant.name)
    share = 1 - len(lived) / len(chosen)
    print(f"{said.floor}: {len(chosen) - len(lived)} of {len(chosen)} killed, {share:.0%}; bar {BAR:.0%}")
    return 0 if share >= BAR else 1


def load_once() -> None:
    """The packages that tests need, imported before any fork; nothing of the planner, which each fork reads anew."""
    import numpy  # noqa: F401
    import pydantic  # noqa: F401
    import pytest  # noqa: F401
    import reportlab.platypus  # noqa: F401
    import scipy.sparse  # noqa: F401
    from ortools.sat.python import cp_model  # noqa: F401

    assert not any(name.split(".")[0] == "planner" for name in sys.modules)


def sample(floor: str, size: int, seed: int) -> list[Mutant]:
    files = sorted(path.relative_to(ROOT).as_posix() for path in (ROOT / "planner" / floor).rglob("*.py"))
    everything = [mutant for path in files for mutant in mutants_of(path, ROOT)]
    equal = YAML(typ="safe").load((Path(__file__).parent / "equal.yaml").read_text("utf-8"))["equal"]
    named = {(entry["path"], entry["was"], entry["now"]) for entry in equal}
    open_ones = [mutant for mutant in everything if (mutant.path, mutant.was, mutant.now) not in named]
    return sorted(
        random.Random(seed).sample(open_ones, min(size, len(open_ones))), key=lambda one: (one.path, one.place)
    )


def all_reaches(floor: str) -> dict[str, Reach]:
    tests = [path for folder in TESTS[floor] for path in sorted((ROOT / folder).glob("test_*.py"))]
    found: dict[str, Reach] = {}
    for path in tests:
        if path.name in SLOW:
            continue
        name = path.relative_to(ROOT).as_posix()
        reach = reach_of(name, ROOT / "planner" / floor, ROOT)
        if reach is None:
            print(f"{name} does not pass as it is and is left out", file=sys.stderr)
        else:
            found[name] = reach
    return found


def tried(mutant: Mutant, reaches: dict[str, Reach]) -> bool:
    tests = [name for name, reach in reaches.items() if mutant.function in reach.functions.get(mutant.path, ())]
    quickest = sorted(tests, key=lambda name: (reaches[name].seconds, name))
    tree = mutated(mutant, ROOT)
    return any(is_killed(mutant.path, tree, [name], ROOT, SLACK + 3 * reaches[name].seconds) for name in quickest)


if __name__ == "__main__":
    sys.exit(main())
