"""What takes long is made once in a run of the tests, by the first of its processes that asks for it."""

from __future__ import annotations

import copyreg
import pickle
from collections.abc import Callable
from pathlib import Path
from typing import TypeVar

from filelock import FileLock

from planner.problem.variable import Variable, variable

T = TypeVar("T")
FOLDER: list[Path] = []  # that the processes of a run share (tests/conftest.py); none where there is only one
copyreg.pickle(Variable, lambda one: (variable, (one.kind, one.at)))  # each has a single object in a process


def made_once(name: str, make: Callable[[], T]) -> T:
    """What ``make`` gives, or gave in another process of this run under this name."""
    if not FOLDER:
        return make()
    kept = FOLDER[0] / f"{name}.pickle"
    with FileLock(f"{kept}.lock"):
        if not kept.exists():
            kept.write_bytes(pickle.dumps(make()))
        made: T = pickle.loads(kept.read_bytes())
    return made
