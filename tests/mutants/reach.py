"""Which test files call which functions of a floor, and how long each takes: a mutant is tried on those alone."""

from __future__ import annotations

import hashlib
import json
import sys
import tempfile
from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from types import FrameType
from typing import Any

from tests.mutants.trial import Job, forked, run_tests

LONGEST = 20.0  # seconds of the processor, calls noted: a slower test file is left out
DATA = ("planner/**/*.py", "exercise_library/*.yaml", "templates/**/*.yaml", "tests/**/*.py", "tests/**/*.yaml")


class NotGreen(Exception):
    """A test fails before anything was changed."""


@dataclass(frozen=True)
class Reach:
    test: str
    seconds: float
    functions: dict[str, frozenset[int]]  # by path: their first lines


def reaches_of(tests: Sequence[str], root: Path, kept: Path | None = None) -> list[Reach]:
    """The quick ones among the test files, the quickest first; noted once, and again when a source changes.

    Raises ``NotGreen`` where a file does not pass as it is.
    """
    kept = kept or Path(tempfile.gettempdir()) / "planner_mutants"
    kept.mkdir(exist_ok=True)
    shared = _digest(root)
    places = {test: kept / f"{_sha(shared, test, (root / test).read_text('utf-8'))}.json" for test in tests}
    jobs = [
        Job(test, lambda test=test, place=place: _note(test, root, place), LONGEST)  # type: ignore[misc]
        for test, place in places.items()
        if not place.exists()
    ]
    for job, ended in forked(jobs):
        place = places[job.name]
        if ended.code is None:
            place.write_text("null", "utf-8")
        elif ended.code == 1 and _passes(job.name):  # noting calls takes time, and some tests hold a clock
            ended = replace(ended, code=0)
        if ended.code:
            place.unlink(missing_ok=True)
            raise NotGreen(f"{job.name} does not pass as it is (exit {ended.code}):\n{ended.said[-2000:]}")
        if ended.code == 0:
            said = json.loads(place.read_text("utf-8"))
            place.write_text(json.dumps([ended.seconds, said]), "utf-8")
    found = [_read(test, place) for test, place in places.items()]
    return sorted((one for one in found if one is not None), key=lambda one: (one.seconds, one.test))


def _passes(test: str) -> bool:
    return all(ended.code == 0 for _, ended in forked([Job(test, lambda: run_tests([test]), LONGEST)]))


def _read(test: str, place: Path) -> Reach | None:
    said = json.loads(place.read_text("utf-8"))
    return said and Reach(test, said[0], {path: frozenset(lines) for path, lines in said[1].items()})


def _note(test: str, root: Path, place: Path) -> int:
    called: dict[str, set[int]] = {}
    prefix = f"{root}/planner/"

    def enter(frame: FrameType, event: str, _: Any) -> None:
        code = frame.f_code
        if code.co_filename.startswith(prefix):
            called.setdefault(code.co_filename, set()).add(code.co_firstlineno)

    sys.settrace(enter)
    code = run_tests([test], stop=False)
    sys.settrace(None)
    noted = {Path(name).relative_to(root).as_posix(): sorted(lines) for name, lines in sorted(called.items())}
    place.write_text(json.dumps(noted), "utf-8")
    return code


def _digest(root: Path) -> str:
    """Of all that a test may read but test files, which count alone."""
    ours = root / "tests/mutants"
    found = (path for glob in DATA for path in root.glob(glob))
    paths = sorted(path for path in found if not path.name.startswith("test_") and path.parent != ours)
    return _sha(str(root), *(text for path in paths for text in (str(path), path.read_text("utf-8"))))


def _sha(*texts: str) -> str:
    return hashlib.sha256("\0".join(texts).encode()).hexdigest()
