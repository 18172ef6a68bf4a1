"""Which test files call which functions of a floor, and how long each takes: a mutant is tried on those alone."""

from __future__ import annotations

import json
import sys
import tempfile
import time
from dataclasses import dataclass
from pathlib import Path
from types import FrameType
from typing import Any

from tests.mutants.trial import forked, run_tests

LONGEST = 400.0  # seconds that one test file may take while its calls are noted


@dataclass(frozen=True)
class Reach:
    seconds: float
    functions: dict[str, frozenset[int]]  # by path: their first lines


def reach_of(test: str, folder: Path, root: Path) -> Reach | None:
    """The functions under ``folder`` that a test file calls; None where it does not pass as it is."""
    with tempfile.TemporaryDirectory() as place:
        kept = Path(place) / "called.json"
        if forked(lambda: _noted(test, folder, kept), LONGEST) != 0:
            return None
        said = json.loads(kept.read_text("utf-8"))
    start = time.monotonic()
    if forked(lambda: run_tests([test]), LONGEST) != 0:
        return None
    functions = {Path(name).relative_to(root).as_posix(): frozenset(found) for name, found in said.items()}
    return Reach(time.monotonic() - start, functions)


def _noted(test: str, folder: Path, kept: Path) -> int:
    called: dict[str, set[int]] = {}
    prefix = str(folder)

    def enter(frame: FrameType, event: str, _: Any) -> None:
        code = frame.f_code
        if code.co_filename.startswith(prefix):
            called.setdefault(code.co_filename, set()).add(code.co_firstlineno)

    sys.settrace(enter)
    code = run_tests([test])
    sys.settrace(None)
    kept.write_text(json.dumps({name: sorted(found) for name, found in sorted(called.items())}), "utf-8")
    return code
