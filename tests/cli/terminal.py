"""A pseudo-terminal of any width with the command running in it."""

from __future__ import annotations

import os
import select
import struct
import subprocess
import sys
import time
from pathlib import Path

import pytest

fcntl, pty, termios = (
    pytest.importorskip(name, reason="no pseudo-terminal here") for name in ("fcntl", "pty", "termios")
)
PATIENCE_s = 240.0  # for one answer of a command, on a busy machine


class Terminal:
    """``jumpblock`` with these words on a pseudo-terminal; ``screen`` is all that it has written so far."""

    def __init__(self, *words: str, folder: Path, columns: int = 98) -> None:
        self._ours, theirs = pty.openpty()
        fcntl.ioctl(theirs, termios.TIOCSWINSZ, struct.pack("HHHH", 40, columns, 0, 0))
        environment = {name: value for name, value in os.environ.items() if name not in ("COLUMNS", "LINES")}
        self._process = subprocess.Popen(
            [sys.executable, "-m", "planner", *words],
            stdin=theirs, stdout=theirs, stderr=theirs, cwd=folder, env=environment,
        )  # fmt: skip
        os.close(theirs)
        self.screen, self._seen = "", 0

    def expect(self, words: str) -> None:
        """Wait until the words are on the screen, behind what was expected before."""
        end = time.monotonic() + PATIENCE_s
        while words not in self.screen[self._seen :]:
            assert time.monotonic() < end and self._read(), f"'{words}' never came:\n{self.screen[-1500:]}"
        self._seen = self.screen.index(words, self._seen) + len(words)

    def type(self, line: str) -> None:
        os.write(self._ours, f"{line}\n".encode())

    def end(self) -> int:
        """The exit code, once the command has ended."""
        while self._read():
            pass
        os.close(self._ours)
        return self._process.wait(PATIENCE_s)

    def _read(self) -> bool:
        if not select.select([self._ours], [], [], PATIENCE_s)[0]:
            return False
        try:
            found = os.read(self._ours, 65536)
        except OSError:  # the other end was closed
            return False
        self.screen += found.decode("utf-8", "replace").replace("\r\n", "\n")
        return bool(found)
