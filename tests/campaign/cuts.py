"""Every command that writes: cut at a write by the system or by a kill, and interrupted anywhere.

Run: python -m tests.campaign.cuts --count 40 --seed 1             faults of the system and kills
     python -m tests.campaign.cuts --signals --count 30 --seed 1   Ctrl-C in each stage of each command
"""

from __future__ import annotations

import argparse
import errno
import json
import os
import random
import shutil
import signal
import sys
import tempfile
from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from functools import partial
from pathlib import Path
from typing import Any

import pytest

import planner
from planner.cli import main as the_command
from planner.jobs import plan_block
from tests.campaign.mutants import INTO, NEW, OF_SQUAD, OUTCOME, PRINT, READ_SQUAD, staged
from tests.campaign.stage import (
    ATHLETE,
    BLOCK,
    RECORD,
    RESULTS,
    SQUAD,
    SQUAD_BLOCK,
    contents,
    dice_for,
    in_a_process_of_its_own,
    jumpblock,
)
from tests.campaign.table import as_table
from tests.cli.conftest import solve_once

DONE, REFUSED, INTERRUPTED, KILLED = 0, 1, 130, -signal.SIGKILL
COMMANDS: dict[str, tuple[str, ...]] = {
    "start": ("start", "new/coach"),
    "plan": ("plan", ATHLETE, "-o", "new/made.yaml"),
    "plan over a block": ("plan", ATHLETE, "-o", BLOCK, "--force"),  # it has a log
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
    "new": NEW,
    "test": ("test", ATHLETE, "--from", RESULTS),
    "outcome": OUTCOME[1],
    "plan --after": ("plan", ATHLETE, "--after", BLOCK, "-o", "new/made.yaml"),
    "revise": ("revise", SQUAD_BLOCK, "--loads-only", "-o", "new/made.yaml"),
    "squad sheet": ("squad", "sheet", "-o", "new/made.xlsx"),
    "squad read": READ_SQUAD,
    "squad overview": ("squad", "overview", SQUAD, "-o", "made.pdf"),
    "squad slots": (*OF_SQUAD[-1], "--cards", "cards.pdf"),
}
# What writes nothing is interrupted too.
READING: dict[str, tuple[str, ...]] = {
    "gap": ("gap", ATHLETE, "--full"),
    "platform without --into": ("platform", RECORD),
    "check": ("check", BLOCK),
    "why": ("why", BLOCK, "--week", "1", "--session", "1"),
    "library list": ("library", "list"),
    "library show": ("library", "show", "pogo"),
    "library cover": ("library", "cover", "--athlete", ATHLETE),
    "library schema": ("library", "schema", "athlete"),
    "rules": ("rules",),
}
ALL = {**COMMANDS, **READING}
OF_SEVERAL_FILES = ("platform", "squad read", "squad slots")  # each is whole; those before the cut may be new already
Place = tuple[str, int]
NOWHERE: Place = ("", 0)
OURS = f"{Path(planner.__file__).parent}/"
SYSTEM = (errno.ENOSPC, errno.EACCES, errno.EIO)
WRITES = ("open", "os.rename", "os.mkdir", "os.chmod", "tempfile.mkstemp", "os.rmdir", "os.remove", "shutil.copyfile")


@dataclass
class Cut:
    """Calls ``strike`` at a place: a stage of the command and the how-manieth of its writes or calls. Counts all."""

    place: Place
    strike: Callable[[], None]
    seen: Counter[str] = field(default_factory=Counter)

    def pass_by(self, stage: str) -> None:
        self.seen[stage] += 1
        if (stage, self.seen[stage]) == self.place:
            sys.setprofile(None)
            self.strike()


@dataclass
class AtWrite(Cut):
    """Every write below the folder is a place; all are of one stage."""

    folder: str = ""

    def __call__(self, event: str, arguments: tuple[Any, ...]) -> None:
        if event not in WRITES or not any(str(one).startswith(self.folder) for one in arguments[:2]):
            return
        if event == "open" and not (arguments[2] or 0) & (os.O_WRONLY | os.O_RDWR | os.O_CREAT):
            return
        self.pass_by("writes")


class AtCall(Cut):
    """Every call of a function of ours in ``main`` is a place; its stage is the folder that the function is in."""

    def __call__(self, frame: Any, event: str, argument: object) -> None:
        where = frame.f_code.co_filename
        if event == "call" and where.startswith(OURS) and frame.f_code is not the_command.__code__:
            self.pass_by(where[len(OURS) :].partition("/")[0])


def refused_by_the_system(number: int) -> None:
    raise OSError(number, os.strerror(number), "planted")


def killed() -> None:
    os.kill(os.getpid(), signal.SIGKILL)


def interrupted() -> None:
    signal.raise_signal(signal.SIGINT)


def _whole_path(word: str) -> str:
    """A path from the root, by which a write below the folder is known; another word as it is."""
    return str(Path(word).resolve()) if set("/.") & set(word) and " " not in word else word


def at_a_write(words: tuple[str, ...], place: Place, strike: Callable[[], None], told: Path | None = None) -> int:
    def work() -> int:
        cut = AtWrite(place, strike, folder=os.getcwd())
        sys.addaudithook(cut)
        code = jumpblock(*map(_whole_path, words)).code
        if told is not None:
            told.write_text(json.dumps(cut.seen))
        return code

    return in_a_process_of_its_own(work)


def at_a_call(words: tuple[str, ...], place: Place, strike: Callable[[], None], told: Path | None = None) -> int:
    def work() -> int:
        cut = AtCall(place, strike)
        signal.signal(signal.SIGINT, signal.default_int_handler)
        sys.setprofile(cut)
        code = jumpblock(*words).code
        sys.setprofile(None)
        if told is not None:
            told.write_text(json.dumps(cut.seen))
        return code

    return in_a_process_of_its_own(work)


class Cuts:
    """A folder and, for each command, what it holds after a whole run and how many places there are to cut it."""

    def __init__(self, folder: Path, cut: Callable[..., int]) -> None:
        self.folder, self.cut = folder, cut
        self.kept = folder.parent / "kept"
        shutil.copytree(folder, self.kept)
        self.before = contents(folder)
        self._whole: dict[str, tuple[dict[str, int], dict[str, bytes]]] = {}

    def whole(self, name: str) -> tuple[dict[str, int], dict[str, bytes]]:
        if name not in self._whole:
            told = self.folder.parent / "told"
            code = self.cut(ALL[name], NOWHERE, killed, told)
            assert code == DONE, f"{name} ends with {code} when nothing is cut"
            self._whole[name] = json.loads(told.read_text()), contents(self.folder)
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

    def place(self, name: str, number: int, dice: random.Random) -> Place:
        """Stages in turn; in each a place that is drawn, until all of a few writes were had once."""
        counts = self.whole(name)[0]
        stages = list(counts)
        stage, turn = stages[number % len(stages)], number // len(stages)
        if self.cut is at_a_write:
            return stage, turn % counts[stage] + 1
        return stage, dice.randint(1, counts[stage])

    def one(self, name: str, at: Place, how: str, strike: Callable[[], None]) -> tuple[str, list[str]]:
        """What came of a cut at one place, and what must not be."""
        _, after = self.whole(name)
        code = self.cut(ALL[name], at, strike)
        now, found = contents(self.folder), [f"torn: {path}" for path in self.torn(name)]
        if how == "kill":
            if code != KILLED:
                found.append(f"ended with {code}")
            self.cut(ALL[name], NOWHERE, killed)  # again, to the end
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
            if how == "fault" and now != self.before and name not in OF_SEVERAL_FILES:
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
        # What is cut is the command; the solver's own test is in tests/cli.
        patch.setattr(plan_block, "solve", solve_once)
        for number in range(count):
            name = names[number % len(names)]
            dice = dice_for(seed, number, name)
            turn = number // len(names)
            at = cuts.place(name, turn if signals else turn // 2, dice)
            how = "signal" if signals else ("fault", "kill")[turn % 2]
            strike = {
                "signal": interrupted,
                "kill": killed,
                "fault": partial(refused_by_the_system, dice.choice(SYSTEM)),
            }[how]
            ended, found = cuts.one(name, at, how, strike)
            cuts.restore()
            counts[name][ended] += 1
            faults += [
                f"{name}, {how} at {at[1]} of {cuts.whole(name)[0][at[0]]} in {at[0]}: {fault}" for fault in found
            ]
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
        names = tuple(ALL if given.signals else COMMANDS)
        counts, faults = run(folder, given.seed, given.count, signals=given.signals, names=names)
        os.chdir("/")
    title = f"{given.count} {'interrupts' if given.signals else 'cuts'}, seed {given.seed}"
    print(as_table(title, counts, ("refused", "killed", "interrupted", "done all the same", "broken"), faults))


if __name__ == "__main__":
    main()
