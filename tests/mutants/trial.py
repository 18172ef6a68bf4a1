"""Tests run in forks of this process, one changed source in the place of a file's; no file is ever changed."""

from __future__ import annotations

import ast
import contextlib
import importlib.abc
import importlib.machinery
import importlib.util
import os
import resource
import signal
import sys
import tempfile
import traceback
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from types import CodeType, ModuleType

MEMORY = 8 * 2**30  # bytes of address space a fork may take: a loop that never ends must not fill the machine
BROKEN = 70  # what a fork ends with where our own code failed, not a test

# Found by pytest's own names: without plugins that load themselves, since hypothesis is loaded before the fork.
os.environ["PYTEST_DISABLE_PLUGIN_AUTOLOAD"] = "1"
QUICK = ["-q", "-p", "no:cacheprovider", "-m", "not long", "--no-header", "--tb=line"]


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
    try:
        while waiting or running:
            while waiting and len(running) < at_once:
                job, said = waiting.pop(), tempfile.TemporaryFile()  # noqa: SIM115
                running[_begin(job, said.fileno())] = job, said
            child, status, used = os.wait4(-1, 0)
            job, said = running.pop(child)
            _kill(child)  # what the tests started and left behind
            code = os.waitstatus_to_exitcode(status)
            said.seek(0)
            text = said.read().decode("utf-8", "replace")
            said.close()
            yield job, Ended(None if code == -signal.SIGXCPU else code, used.ru_utime + used.ru_stime, text)
    finally:
        for child in running:
            _kill(child)
            os.waitpid(child, 0)


def _begin(job: Job, output: int) -> int:
    child = os.fork()
    if child:
        return child
    code = BROKEN
    try:
        os.setpgid(0, 0)
        signal.signal(signal.SIGTERM, signal.SIG_DFL)
        seconds = int(job.seconds) + 1
        resource.setrlimit(resource.RLIMIT_CPU, (seconds, seconds + 5))
        resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
        os.dup2(output, 1)
        os.dup2(output, 2)
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


def run_tests(files: Sequence[str], stop: bool = True) -> int:
    """pytest's exit code: 0 all passed, 1 one failed, 2 a file could not be read in."""
    import pytest
    from hypothesis import Phase, settings

    settings.register_profile(
        "mutants", derandomize=True, database=None, deadline=None, phases=(Phase.explicit, Phase.generate)
    )
    settings.load_profile("mutants")
    with tempfile.TemporaryDirectory() as place:
        return int(pytest.main([*QUICK, *["-x"] * stop, f"--basetemp={place}/tests", *files]))


def put_in(path: str, tree: ast.Module, root: Path) -> None:
    """From here on, importing the module of ``path`` runs ``tree``."""
    sys.meta_path.insert(
        0, _PutIn(path.removesuffix(".py").removesuffix("/__init__").replace("/", "."), root / path, tree)
    )


class _PutIn(importlib.abc.MetaPathFinder, importlib.abc.Loader):
    def __init__(self, module: str, path: Path, tree: ast.Module) -> None:
        self.module, self.path = module, path
        self.code: CodeType = compile(tree, str(path), "exec")

    def find_spec(self, name: str, path: object = None, target: object = None) -> importlib.machinery.ModuleSpec | None:
        if name != self.module:
            return None
        return importlib.util.spec_from_file_location(name, self.path, loader=self)  # type: ignore[arg-type]

    def create_module(self, spec: importlib.machinery.ModuleSpec) -> None:
        return None

    def exec_module(self, module: ModuleType) -> None:
        exec(self.code, module.__dict__)
