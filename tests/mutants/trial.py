"""Tests run in forks of this process, in which one function has a changed body; no file is ever changed."""

from __future__ import annotations

import contextlib
import functools
import gc
import importlib
import os
import pkgutil
import resource
import signal
import sys
import tempfile
import time
import traceback
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from itertools import zip_longest
from pathlib import Path
from types import CodeType, FunctionType
from typing import Any

import pytest

from tests.mutants.changes import Mutant, mutated

MEMORY = 8 * 2**30  # bytes of address space a fork may take: a loop that never ends must not fill the machine
WAITING = 20  # times its processor time that a fork may take by the clock: a test may wait for ever without working
BROKEN = 70  # what a fork ends with where our own code failed, not a test
RAN_OUT = (-signal.SIGXCPU, -signal.SIGALRM)
# Without plugins that load themselves: hypothesis is loaded before them.
os.environ["PYTEST_DISABLE_PLUGIN_AUTOLOAD"] = "1"
QUICK = ["-q", "-s", "-p", "no:cacheprovider", "-m", "not long", "--no-header", "--tb=short"]


@dataclass(frozen=True)
class Job:
    """``work`` returns an exit code; it gets ``seconds`` of processor time."""

    name: str
    work: Callable[[], int]
    seconds: float


@dataclass(frozen=True)
class Ended:
    """``code`` is what the work returned, None where its time ran out; ``seconds`` are of the processor."""

    code: int | None
    seconds: float
    said: str


def forked(jobs: Iterable[Job], at_once: int = 1) -> Iterator[tuple[Job, Ended]]:
    """Each job in a fork of its own, as they end; whatever still runs is killed where the caller stops early."""
    waiting, running = list(jobs)[::-1], {}
    gc.freeze()  # so that collecting garbage in a fork does not copy every page of this process
    try:
        while waiting or running:
            while waiting and len(running) < at_once:
                job, said, place = waiting.pop(), tempfile.TemporaryFile(), tempfile.TemporaryDirectory()  # noqa: SIM115
                running[_begin(job, said.fileno(), place.name)] = job, said, place
            child, status, used = os.wait4(-1, 0)
            job, said, place = running.pop(child)
            _kill(child)  # what the tests started and left behind
            code = os.waitstatus_to_exitcode(status)
            said.seek(0)
            text = said.read().decode("utf-8", "replace")
            said.close()
            place.cleanup()
            yield job, Ended(None if code in RAN_OUT else code, used.ru_utime + used.ru_stime, text)
    finally:
        for child, (_, said, place) in running.items():
            _kill(child)
            os.waitpid(child, 0)
            said.close()
            place.cleanup()


def _begin(job: Job, output: int, place: str) -> int:
    child = os.fork()
    if child:
        return child
    code = BROKEN
    try:
        os.setpgid(0, 0)
        signal.signal(signal.SIGTERM, signal.SIG_DFL)
        seconds = int(job.seconds) + 1
        signal.alarm(WAITING * seconds)
        resource.setrlimit(resource.RLIMIT_CPU, (seconds, seconds + 5))
        resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
        os.dup2(os.open(os.devnull, os.O_RDONLY), 0)
        os.dup2(output, 1)
        os.dup2(output, 2)
        tempfile.tempdir = place
        code = job.work()
    except BaseException:
        traceback.print_exc()
    finally:
        sys.stdout.flush()
        sys.stderr.flush()
        os._exit(code)


def _kill(group: int) -> None:
    with contextlib.suppress(ProcessLookupError):
        os.killpg(group, signal.SIGKILL)


@dataclass(eq=False)
class Tests:
    """pytest with its tests found and their modules loaded, before any fork."""

    items: dict[str, pytest.Item] = field(default_factory=dict)
    failed: str = ""
    calling: bool = False  # whether a test runs now, and not what is around it
    seconds: float = 0.0  # of the processor that the last test took, without what its session shares

    def each(self, names: Sequence[str]) -> Iterator[tuple[str, str]]:
        """Runs these and says of each how it failed. For a fork: nothing is put back after the last."""
        chosen = [self.items[name] for name in names]
        factory: Any = chosen[0].config._tmp_path_factory  # type: ignore[attr-defined]
        factory._basetemp = Path(tempfile.mkdtemp())
        for item, following in zip_longest(chosen, chosen[1:]):
            self.failed = ""
            item.config.hook.pytest_runtest_protocol(item=item, nextitem=following)
            yield item.nodeid, self.failed

    def run(self, names: Sequence[str]) -> int:
        """0 if these pass, 1 at the first that does not."""
        said = next((failed for _, failed in self.each(names) if failed), "")
        print(said)
        return 1 if said else 0

    @pytest.hookimpl(wrapper=True)
    def pytest_runtest_call(self) -> Iterator[None]:
        self.calling, before = True, time.process_time()
        try:
            return (yield)
        finally:
            self.calling, self.seconds = False, time.process_time() - before

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        if report.failed:
            self.failed = f"{report.nodeid}\n{report.longreprtext}"


def with_tests(files: Sequence[str], work: Callable[[Tests], int]) -> int:
    """What ``work`` returns on the tests of these files; 2 if a file could not be read in."""
    from hypothesis import Phase, settings

    settings.register_profile(
        "mutants", derandomize=True, database=None, deadline=None, phases=(Phase.explicit, Phase.generate)
    )
    settings.load_profile("mutants")
    tests, codes = Tests(), []

    class Plugin:
        def pytest_runtestloop(self, session: pytest.Session) -> bool:
            if not session.testsfailed:
                tests.items = {item.nodeid: item for item in session.items}
                codes.append(work(tests))
            return True

    pytest.main([*QUICK, *files], plugins=[tests, Plugin()])
    return codes[0] if codes else 2


class Functions:
    """Every function of a package, imported, by file and first line: what a mutant is put into."""

    def __init__(self, package: str) -> None:
        folder = importlib.import_module(package).__path__
        for module in pkgutil.walk_packages(folder, f"{package}."):
            importlib.import_module(module.name)
        self._found: dict[tuple[str, int], list[FunctionType]] = {}
        self._caches = [one for one in gc.get_objects() if isinstance(one, functools._lru_cache_wrapper)]
        self._caches = [one for one in self._caches if isinstance(one.__wrapped__, FunctionType)]
        for one in gc.get_objects():
            if isinstance(one, FunctionType):
                self._found.setdefault((one.__code__.co_filename, one.__code__.co_firstlineno), []).append(one)

    def put_in(self, mutant: Mutant, root: Path) -> None:
        """From here on, the function runs as changed, wherever it was imported to. Raises KeyError if there is none."""
        path = root / mutant.path
        old = _codes(compile(path.read_text("utf-8"), str(path), "exec", dont_inherit=True), mutant.function)
        new = _codes(compile(mutated(mutant, root), str(path), "exec", dont_inherit=True), mutant.function)
        pairs = [(was, now) for was, now in zip(old, new, strict=True) if was != now]
        changed = [
            (one, now) for was, now in pairs for one in self._found[str(path), mutant.function] if one.__code__ == was
        ]
        if not changed:
            raise KeyError(f"no function in memory for {mutant.name}")
        for function, code in changed:
            function.__code__ = code
        for cache in self._caches:
            if cache.__wrapped__.__code__.co_filename == str(path):
                cache.cache_clear()


def _codes(code: CodeType, line: int) -> list[CodeType]:
    """The outermost ones that begin on this line."""
    inside = [one for one in code.co_consts if isinstance(one, CodeType)]
    return [found for one in inside for found in ([one] if one.co_firstlineno == line else _codes(one, line))]
