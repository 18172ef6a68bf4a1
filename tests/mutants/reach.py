"""Which tests run which lines of a floor, and how long each takes: a mutant is tried on those alone."""

from __future__ import annotations

import hashlib
import json
import signal
import sys
import tempfile
import time
from collections import Counter, defaultdict
from dataclasses import dataclass
from functools import cache, partial
from pathlib import Path
from types import CodeType, FrameType
from typing import Any, NoReturn

from tests.mutants.trial import Job, Tests, forked

LONGEST = 10  # seconds of the processor, lines noted: a slower test is left out
AGAIN = 1.0  # seconds after which it is stopped again, if it went on
MANY = 100  # calls of a function in one test, after which its lines are no longer noted: they are known by then
A_FILE = 150.0  # seconds: tests of a file that have not come to their turn by then are left out
DATA = ("planner/**/*.py", "exercise_library/*.yaml", "templates/**/*.yaml", "tests/**/*.py", "tests/**/*.yaml")


class NotGreen(Exception):
    """A test fails before anything was changed."""


class TooSlow(BaseException):
    """Raised in a test that takes too long."""


@dataclass(frozen=True)
class Reach:
    """``seconds`` is None for a test that takes too long; ``lines`` are by path."""

    test: str
    seconds: float | None
    lines: dict[str, frozenset[int]]

    @property
    def file(self) -> str:
        return self.test.partition("::")[0]


def reaches_of(tests: Tests, package: str, root: Path, kept: Path | None = None, at_once: int = 1) -> list[Reach]:
    """In the tests' own order; a file's are noted once, in one fork, and again when a source changes.

    What a test finds made by an earlier one of its file (a cache) is counted to that earlier one.
    Raises ``NotGreen`` where a test does not pass as it is.
    """
    kept = kept or Path(tempfile.gettempdir()) / "planner_mutants"
    kept.mkdir(exist_ok=True)
    shared, files = _digest(root), defaultdict[str, list[str]](list)
    for name in tests.items:
        files[name.partition("::")[0]].append(name)
    places = {file: kept / f"{_sha(package, shared, file, (root / file).read_text('utf-8'))}.json" for file in files}
    jobs = [
        Job(file, partial(_note, tests, names, f"{root}/{package}/", _part(places[file])), A_FILE)
        for file, names in files.items()
        if not places[file].exists()
    ]
    for job, ended in forked(jobs, at_once):
        if ended.code not in (0, None):
            raise NotGreen(f"{job.name} does not pass as it is (exit {ended.code}):\n{ended.said[-2000:]}")
        _pass_alone(tests, _part(places[job.name]), at_once)
        _part(places[job.name]).rename(places[job.name])
    return [_read(name, places[file], package) for file, names in files.items() for name in names]


def _part(place: Path) -> Path:
    """Where notes are until they are whole."""
    return place.with_suffix(".part")


def _read(name: str, place: Path, package: str) -> Reach:
    _, seconds, lines = _noted(place).get(name, (True, None, {}))
    return Reach(name, seconds, {f"{package}/{path}": frozenset(of) for path, of in lines.items()})


@cache
def _noted(place: Path) -> dict[str, Any]:
    return {name: rest for name, *rest in map(json.loads, place.read_text("utf-8").splitlines())}


def _pass_alone(tests: Tests, place: Path, at_once: int) -> None:
    """Noting lines takes time, and some tests hold a clock: what failed is run again without."""
    again = [name for name, (passed, *_) in _noted(place).items() if not passed]
    for job, ended in forked([Job(name, partial(tests.run, [name]), LONGEST) for name in again], at_once):
        if ended.code:
            raise NotGreen(f"{job.name} does not pass as it is (exit {ended.code}):\n{ended.said[-2000:]}")


def _note(tests: Tests, names: list[str], folder: str, place: Path) -> int:
    """Writes a line for each test: name, whether it passed, seconds, lines by path."""
    run, calls = defaultdict[str, set[int]](set), Counter[CodeType]()

    def line(frame: FrameType, event: str, _: Any) -> Any:
        run[frame.f_code.co_filename].add(frame.f_lineno)
        return line

    def enter(frame: FrameType, event: str, _: Any) -> Any:
        code = frame.f_code
        if not code.co_filename.startswith(folder) or calls[code] == MANY:
            return None
        calls[code] += 1
        return line(frame, event, None)

    def stop(*_: object) -> NoReturn:
        if tests.calling:
            raise TooSlow

    signal.signal(signal.SIGPROF, stop)
    signal.setitimer(signal.ITIMER_PROF, LONGEST, AGAIN)
    before = time.process_time()
    with place.open("w", encoding="utf-8") as out:
        sys.settrace(enter)
        for name, failed in tests.each(names):
            now = time.process_time()
            slow = "TooSlow" in failed or now - before > LONGEST
            lines = {path.removeprefix(folder): sorted(of) for path, of in sorted(run.items())}
            noted = (name, True, None, {}) if slow else (name, not failed, tests.seconds, lines)
            print(json.dumps(noted), file=out, flush=True)
            run.clear()
            calls.clear()
            before = now
            signal.setitimer(signal.ITIMER_PROF, LONGEST, AGAIN)
        sys.settrace(None)
    return 0


def _digest(root: Path) -> str:
    """Of all that a test may read but test files, which count alone."""
    ours = root / "tests/mutants"
    found = (path for glob in DATA for path in root.glob(glob))
    paths = sorted(path for path in found if not path.name.startswith("test_") and path.parent != ours)
    return _sha(str(root), *(text for path in paths for text in (str(path), path.read_text("utf-8"))))


def _sha(*texts: str) -> str:
    return hashlib.sha256("\0".join(texts).encode()).hexdigest()
