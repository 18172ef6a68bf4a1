"""Work for processes that go wrong; a module of its own, since they import it by name."""

from __future__ import annotations

import os
import signal
import threading
from pathlib import Path

from planner.jobs.plan_one import Planned, PlanTask, plan_one

_MIDWAY_s = 1.0


def doubled(number: int) -> int:
    return 2 * number


def killed_once(task: tuple[int, str]) -> int:
    """Kills its own process the first time that it sees the file's name."""
    number, mark = task
    if mark and not Path(mark).exists():
        Path(mark).write_text("seen", "utf-8")
        os.kill(os.getpid(), signal.SIGKILL)
    return 2 * number


def planned_at_the_second_try(task: tuple[PlanTask, str]) -> Planned:
    """``plan_one``; where a mark is named, the process that plans it first is killed while it does."""
    asked, mark = task
    if mark and not Path(mark).exists():
        Path(mark).write_text("seen", "utf-8")
        threading.Timer(_MIDWAY_s, os.kill, (os.getpid(), signal.SIGKILL)).start()
    return plan_one(asked)


def killed_always(number: int) -> int:
    if number == 1:
        os.kill(os.getpid(), signal.SIGKILL)
    return 2 * number


def bug(number: int) -> int:
    raise ZeroDivisionError(f"at {number}")
