"""Work for processes that go wrong; a module of its own, since they import it by name."""

from __future__ import annotations

import os
import signal
from pathlib import Path


def doubled(number: int) -> int:
    return 2 * number


def killed_once(task: tuple[int, str]) -> int:
    """Kills its own process the first time that it sees the file's name."""
    number, mark = task
    if mark and not Path(mark).exists():
        Path(mark).write_text("seen", "utf-8")
        os.kill(os.getpid(), signal.SIGKILL)
    return 2 * number


def killed_always(number: int) -> int:
    if number == 1:
        os.kill(os.getpid(), signal.SIGKILL)
    return 2 * number


def bug(number: int) -> int:
    raise ZeroDivisionError(f"at {number}")
