"""Every command that writes: cut at a write by the system or by a kill, and interrupted anywhere.

Run: python -m tests.campaign.cuts --count 40 --seed 1             faults of the system and kills
     python -m tests.campaign.cuts --signals --count 30 --seed 1   Ctrl-C at any call of ours
"""

from __future__ import annotations

import argparse
import errno
import os
import shutil
import signal
import sys
import tempfile
from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from typing import Any

import pytest

from planner.jobs import plan_block
from tests.campaign.mutants import INTO, PRINT, staged
from tests.campaign.stage import ATHLETE, BLOCK, contents, dice_for, in_a_process_of_its_own, jumpblock
from tests.campaign.table import as_table
from tests.cli.conftest import solve_once

DONE, REFUSED, INTERRUPTED, KILLED = 0, 1, 130, -signal.SIGKILL
COMMANDS: dict[str, tuple[str, ...]] = {
    "start": ("start", "new/coach"),
    "plan": ("plan", ATHLETE, "-o", "new/made.yaml"),
    "plan over a block": ("plan", ATHLETE, "-o", BLOCK),
    "cards": (*PRINT[0][:2], "-o", "new/made.pdf", "--week", "1"),
    "calendar": ("calendar", BLOCK, "-o", "made.ics"),
    "log": ("log", BLOCK, "w2s2", "--as-planned", "--effort", "5", "--minutes", "60"),
    "progress": ("progress", BLOCK, "-o", "made.pdf"),
    "change": ("change", BLOCK, "w3s1", "--drop", "-o", "made.yaml"),
    "platform": INTO,
    "library edit": ("library", "edit", "pogo", "level=intermediate", "--library", "exercise_library"),
    "library add": (
        "library",
        "add",
        "pogo-on-sand",
        "--like",
        "pogo",
        "name=Sand",
        "--library",
        "exercise_library",
    ),
}
SYSTEM = (errno.ENOSPC, errno.EACCES, errno.EIO)
WRITES = ("open", "os.rename", "os.mkdir", "os.chmod", "tempfile.mkstemp", "os.rmdir", "os.remove", "shutil.copyfile")


@dataclass
class AtWrite:
    """Calls ``strike`` at the ``at``-th write below the folder; counts all of them."""

    folder: str
    at: int
    strike: Callable[[], None]
    seen: int = 0

    def __call__(self, event: str, arguments: tuple[Any, ...]) -> None:
        if event not in WRITES or not any(str(one).startswith(self.folder) for one in arguments[:2]):
            return
        if event == "open" and not (arguments[2] or 0) & (os.O_WRONLY | os.O_RDWR | os.O_CREAT):
            return
        self.seen += 1
        if self.seen == self.at:
            self.strike()


@dataclass
class AtCall:
    """Calls ``strike`` at the ``at``-th call of a function of ours."""

    at: int
    strike: Callable[[], None]
    seen: int = 0

    def __call__(self, frame: Any, event: str, argument: object) -> None:
        if event == "call" and "/planner/" in frame.f_code.co_filename:
            self.seen += 1
            if self.seen == self.at:
                sys.setprofile(None)
                self.strike()


def refused_by_the_system(number: int) -> None:
    raise OSError(number, os.strerror(number), "planted")


def killed() -> None:
    os.kill(os.getpid(), signal.SIGKILL)


def interrupted() -> None:
    signal.raise_signal(signal.SIGINT)


def at_a_write(words: tuple[str, ...], at: int, strike: Callable[[], None], told: Path | None = None) -> int:
    def work() -> int:
        cut = AtWrite(os.getcwd(), at, strike)
        sys.addaudithook(cut)
        code = jumpblock(*(str(Path(word).resolve()) if "/" in word or "." in word else word for word in words)).code
        if told is not None:
            told.write_text(str(cut.seen))
        return code

    return in_a_process_of_its_own(work)


def at_a_call(words: tuple[str, ...], at: int, strike: Callable[[], None], told: Path | None = None) -> int:
    def work() -> int:
        cut = AtCall(at, strike)
        signal.signal(signal.SIGINT, signal.default_int_handler)
        sys.setprofile(cut)
        code = jumpblock(*words).code
        sys.setprofile(None)
        if told is not None:
            told.write_text(str(cut.seen))
        return code

    return in_a_process_of_its_own(work)


class Cuts:
    """A folder and, for each command, what it holds after a whole run and how many places there are to cut it."""

    def __init__(self, folder: Path, cut: Callable[..., int]) -> None:
        self.folder, self.cut = folder, cut
        self.kept = folder.parent / "kept"
        shutil.copytree(folder, self.kept)
        self.before = contents(folder)
        self._whole: dict[str, tuple[int, dict[str, bytes]]] = {}

    def whole(self, name: str) -> tuple[int, dict[str, bytes]]:
        if name not in self._whole:
            told = self.folder.parent / "told"
            code = self.cut(COMMANDS[name], 0, killed, told)
            assert code == DONE, f"{name} ends with {code} when nothing is cut"
            self._whole[name] = int(told.read_text()), contents(self.folder)
            self.restore()
        return self._whole[name]

    def restore(self) -> None:
        os.chdir(self.folder.parent)
        shutil.rmtree(self.folder)
        shutil.copytree(self.kept, self.folder)
        os.chdir(self.folder)

    def torn(self, name: str) -> list[str]:
        """Files that are neither as before nor as after a whole run; hidden ones are left out."""
        now, after = contents(self.folder), self.whole(name)[1]
        return [
            path
            for path, raw in now.items()
            if not _hidden(path) and raw not in (self.before.get(path), after.get(path))
        ]

    def one(self, name: str, at: int, how: str, strike: Callable[[], None]) -> tuple[str, list[str]]:
        """What came of a cut at one place, and what must not be."""
        _, after = self.whole(name)
        code = self.cut(COMMANDS[name], at, strike)
        now, found = contents(self.folder), [f"torn: {path}" for path in self.torn(name)]
        if how == "kill":
            if code != KILLED:
                found.append(f"ended with {code}")
            self.cut(COMMANDS[name], 0, killed)  # again, to the end
            later = {path: raw for path, raw in contents(self.folder).items() if not _hidden(path)}
            found += (
                []
                if later == {path: raw for path, raw in after.items() if not _hidden(path)}
                else ["not whole the second time"]
            )
        else:
            found += [f"left behind: {path}" for path in now if _hidden(path) and path not in self.before]
            expected = {"fault": REFUSED, "signal": INTERRUPTED}[how]
            if code == DONE and now == after:
                return "done all the same", found
            if code != expected:
                found.append(f"ended with {code}")
            if how == "fault" and now != self.before and name != "platform":  # its picture may be new already
                found.append("refused, and yet written")
        self.restore()
        return {REFUSED: "refused", INTERRUPTED: "interrupted", KILLED: "killed"}.get(code, "broken"), found


def _hidden(path: str) -> bool:
    return any(part.startswith(".") for part in path.split("/"))


def run(
    folder: Path, seed: int, count: int, *, signals: bool = False, names: Sequence[str] = tuple(COMMANDS)
) -> tuple[dict[str, Counter[str]], list[str]]:
    """Counts of ends by command, and the faults; commands in turn, places drawn."""
    os.chdir(folder)
    cuts = Cuts(folder, at_a_call if signals else at_a_write)
    counts: dict[str, Counter[str]] = {name: Counter() for name in names}
    faults: list[str] = []
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(
            plan_block, "solve", solve_once
        )  # what is cut is the command; the solver's own test is in tests/cli
        for number in range(count):
            name = names[number % len(names)]
            dice = dice_for(seed, number, name)
            at = dice.randint(1, cuts.whole(name)[0])
            how = "signal" if signals else ("fault", "kill")[number // len(names) % 2]
            strike = {
                "signal": interrupted,
                "kill": killed,
                "fault": partial(refused_by_the_system, dice.choice(SYSTEM)),
            }[how]
            ended, found = cuts.one(name, at, how, strike)
            cuts.restore()
            counts[name][ended] += 1
            faults += [f"{name}, {how} at {at} of {cuts.whole(name)[0]}: {fault}" for fault in found]
    return counts, faults


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--count", type=int, default=40)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--signals", action="store_true")
    given = parser.parse_args()
    with tempfile.TemporaryDirectory() as where, pytest.MonkeyPatch.context() as patch:
        patch.setattr(plan_block, "solve", solve_once)
        folder = staged(Path(where).resolve() / "coach")
        counts, faults = run(folder, given.seed, given.count, signals=given.signals)
        os.chdir("/")
    title = f"{given.count} {'interrupts' if given.signals else 'cuts'}, seed {given.seed}"
    print(as_table(title, counts, ("refused", "killed", "interrupted", "done all the same", "broken"), faults))


if __name__ == "__main__":
    main()
