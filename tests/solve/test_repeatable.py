"""The same input gives the same bytes: in other processes, with other hash seeds, from files in another order.

The full count, with other work on the machine: python -m tests.benchmarks.one_hash
"""

from __future__ import annotations

import shutil
from dataclasses import replace
from pathlib import Path

import pytest

from planner.files.dump import block_to_yaml
from planner.files.load import load_library
from tests.benchmarks.one_hash import Setting, coach_folder, plan_and_cards, settings
from tests.solve.demos import ROOT, inputs, needed, solve_for, solved

LONG = pytest.mark.long


@pytest.mark.parametrize(
    ("demo", "runs"),
    [
        ("in-season", [Setting(1, cores=1), Setting(4242, cores=2)]),
        ("youth", [Setting(7, cores=2), Setting(99, cores=1)]),
        pytest.param("adult", settings(20), marks=LONG),
    ],
    ids=["in-season", "youth", "adult"],
)
def test_hash_seeds_cores_and_the_order_of_folders_give_the_same_plan_and_cards(
    demo: str, runs: list[Setting], tmp_path: Path
) -> None:
    coach = coach_folder(tmp_path)
    digests = {plan_and_cards(coach, demo, setting) for setting in runs}
    assert len(digests) == 1


@pytest.mark.parametrize("demo", ["in-season", "youth"])
def test_the_names_of_files_in_the_library_do_not_matter(demo: str, tmp_path: Path) -> None:
    """The same files under names that sort the other way round."""
    files = sorted((ROOT / "exercise_library").glob("*.yaml"))
    for place, path in enumerate(reversed(files)):
        name = path.name if path.name == "equipment.yaml" else f"{place:03}-{path.name}"
        shutil.copy(path, tmp_path / name)
    turned = needed(load_library(tmp_path))
    block = solve_for(replace(inputs(demo), library=turned)).block
    assert block_to_yaml(block) == block_to_yaml(solved(demo).block)
