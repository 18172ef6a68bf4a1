"""One mutant tried in a process of its own: its source is put in as it is imported, so no file is ever changed."""

from __future__ import annotations

import ast
import importlib.abc
import importlib.machinery
import importlib.util
import os
import signal
import sys
import time
from collections.abc import Callable, Sequence
from pathlib import Path
from types import CodeType, ModuleType

QUICK = ["-q", "-x", "-p", "no:cacheprovider", "-p", "no:randomly", "-m", "not long", "--no-header", "--tb=no"]


class PutIn(importlib.abc.MetaPathFinder, importlib.abc.Loader):
    """Gives one module another source."""

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


def module_of(path: str) -> str:
    return path.removesuffix(".py").removesuffix("/__init__").replace("/", ".")


def forked(work: Callable[[], int], seconds: float) -> int | None:
    """What ``work`` returns in a fork of this process, or None where it ran out of time. Its output is dropped."""
    child = os.fork()
    if child == 0:
        os.setpgid(0, 0)
        code = 70
        try:
            nowhere = os.open(os.devnull, os.O_WRONLY)
            os.dup2(nowhere, 1)
            os.dup2(nowhere, 2)
            code = work()
        finally:
            os._exit(code)
    until = time.monotonic() + seconds
    while time.monotonic() < until:
        done, status = os.waitpid(child, os.WNOHANG)
        if done:
            return os.waitstatus_to_exitcode(status)
        time.sleep(0.01)
    os.kill(child, signal.SIGKILL)
    os.waitpid(child, 0)
    return None


def run_tests(files: Sequence[str]) -> int:
    import pytest

    return int(pytest.main([*QUICK, *files]))


def is_killed(path: str, tree: ast.Module, files: Sequence[str], root: Path, seconds: float) -> bool:
    """Whether a test fails (or runs out of time) with this source in the place of the file's."""

    def work() -> int:
        sys.meta_path.insert(0, PutIn(module_of(path), root / path, tree))
        return run_tests(files)

    return forked(work, seconds) != 0
