"""The same input gives the same bytes: in other processes, with other hash seeds, from files in another order."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest

from planner.files.dump import block_to_yaml
from planner.files.load import load_library
from tests.solve.demos import ROOT, inputs, needed, solve_for, solved

HASH_SEEDS = ("1", "4242")
PRINT_A_BLOCK = """
import sys
from planner.files.dump import block_to_yaml
from tests.solve.demos import solved
sys.stdout.write(block_to_yaml(solved(sys.argv[1]).block))
"""


def _in_another_process(demo: str, hash_seed: str) -> str:
    environment = {**os.environ, "PYTHONHASHSEED": hash_seed, "PYTHONPATH": str(ROOT)}
    command = [sys.executable, "-c", PRINT_A_BLOCK, demo]
    done = subprocess.run(command, cwd=ROOT, env=environment, capture_output=True, text=True, check=True)
    return done.stdout


@pytest.mark.parametrize("demo", ["in-season", "youth"])
def test_other_processes_and_hash_seeds_give_the_same_bytes(demo: str) -> None:
    here = block_to_yaml(solved(demo).block)
    assert [_in_another_process(demo, seed) == here for seed in HASH_SEEDS] == [True, True]


@pytest.mark.parametrize("demo", ["in-season", "youth"])
def test_the_order_of_files_in_the_library_does_not_matter(demo: str, tmp_path: Path) -> None:
    """The same files under names that sort the other way round."""
    files = sorted((ROOT / "exercise_library").glob("*.yaml"))
    for place, path in enumerate(reversed(files)):
        name = path.name if path.name == "equipment.yaml" else f"{place:03}-{path.name}"
        shutil.copy(path, tmp_path / name)
    turned = needed(load_library(tmp_path))
    block = solve_for(replace(inputs(demo), library=turned)).block
    assert block_to_yaml(block) == block_to_yaml(solved(demo).block)
