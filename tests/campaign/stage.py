"""A coach's folder to be broken, and the command run in this process or in one of its own."""

from __future__ import annotations

import contextlib
import datetime
import io
import os
import random
import re
import sys
import traceback
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest

from planner.cli import main
from planner.files.load import load_block
from planner.files.training_note import START, check_of
from planner.jobs import plan_block, revise_block
from planner.jobs.new_squad_sheet import filled_sheet
from planner.problem.model import Problem
from planner.rules.registry import gather_rows
from planner.solve.found_plan import BudgetSpent
from tests.cli.conftest import retested, solve_once
from tests.force_platform.simulate import SHAPES, simulate
from tests.squads.drawn import battery, rows

ATHLETE, BLOCK, LOG = "templates/athletes/in-season-player.yaml", "block.yaml", "block-log.yaml"
SETS, NOTE, RECORD = "templates/logs/in-season-knee-amber.csv", "notes.txt", "record.tsv"
RESULTS, RETESTED = "results.csv", "retested.yaml"
SQUAD_BLOCK = "blocks/in-season-player.yaml"  # its log has no pain
SQUAD, SQUAD_TESTS, SQUAD_BOOK = "squad.yaml", "squad-tests.csv", "templates/squads/demo-squad.xlsx"
BLUNDER = 99  # what a process of its own ends with where something got past the command


@dataclass(frozen=True)
class Said:
    code: int
    out: bytes
    err: str


def jumpblock(*words: object) -> Said:
    """The command in this process; nothing is typed into it."""
    out, err = io.TextIOWrapper(io.BytesIO(), encoding="utf-8"), io.StringIO()
    with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err), pytest.MonkeyPatch.context() as patch:
        patch.setattr(sys, "stdin", io.StringIO(""))
        code = main([str(word) for word in words])
    out.flush()
    return Said(code, out.buffer.getvalue(), err.getvalue())  # type: ignore[attr-defined]


def in_a_process_of_its_own(work: Callable[[], int]) -> int:
    """What ``work`` returns, or minus the signal that ended it. A copy of this process: nothing is read anew."""
    child = os.fork()
    if child == 0:
        try:
            code = work()
        except BaseException:
            traceback.print_exc()
            code = BLUNDER
        os._exit(code)
    return os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])


def furnish(folder: Path) -> None:
    """A folder with a planned ``block.yaml`` gets a log, notes, a record, a retest and a squad of that one athlete."""
    block = folder / BLOCK
    for number in (1, 2):
        said = jumpblock("log", block, f"w1s{number}", "--as-planned", "--effort", 7, "--minutes", 60)
        assert said.code == 0, said.err
    said = jumpblock(
        "log", block, "w2s1", "--as-planned", "--effort", 6, "--item", "1", "1 left", "--pain", "left patellar-knee 1 2"
    )
    made = simulate(SHAPES["one hump"], noise_N=3.0, offset_N=20, seed=1)
    rows = [f"{at / 1000:.3f}\t{force:.1f}" for at, force in enumerate(made.record.force_N)]
    (folder / RECORD).write_text("\n".join(["Time [s]\tFz [N]", *rows]), "utf-8")
    body = f"{load_block(block).require().plan_sha256[:8]} w2s2 2025-09-17 as-planned / effort 6 / minutes 60"
    (folder / NOTE).write_text(f"{START} {body} end {check_of(body)}\n", "utf-8")
    _furnish_results(folder)
    _furnish_squad(folder)


def _furnish_results(folder: Path) -> None:
    (folder / RESULTS).write_text("date,test,result\n2025-10-04,touch,2.99\n2025-10-04,touch,3.00\n", "utf-8")
    retested(folder / ATHLETE, folder / RETESTED, datetime.date(2025, 10, 4), "3.00 m, 3.01 m")


def _furnish_squad(folder: Path) -> None:
    """The demo's halls and coaches, with the athlete who is here; a sheet of its first rows."""
    name = Path(ATHLETE).stem
    text = (folder / "templates/squads/demo-squad.yaml").read_text("utf-8")
    text = text.replace("athletes: [athletes]", f"athletes: [{ATHLETE}]").replace("[mon, tue, thu]", "[mon, wed]")
    (folder / SQUAD).write_text(re.sub(r"athletes: \[ada-varga.*?\]", f"athletes: [{name}]", text), "utf-8")
    (folder / SQUAD_TESTS).write_bytes(filled_sheet(battery(), (), rows(3), as_csv=True))
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(plan_block, "solve", solve_once)
        assert jumpblock("plan", folder / ATHLETE, "-o", folder / SQUAD_BLOCK).code == 0
    assert jumpblock("log", folder / SQUAD_BLOCK, "w1s1", "--as-planned", "--effort", 6).code == 0


def _no_search(problem: Problem, *_: object) -> None:
    gather_rows(problem)
    raise BudgetSpent


@contextlib.contextmanager
def without_search() -> Iterator[None]:
    """All of ``plan`` and ``revise`` but the solver: files, estimate, problem and rows, then a budget that is spent."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(plan_block, "solve", _no_search)
        patch.setattr(plan_block, "minutes_that_do", lambda *_: None)
        patch.setattr(revise_block, "solve_rest", _no_search)
        yield


def contents(folder: Path) -> dict[str, bytes]:
    """Every file below the folder with its bytes; a folder's are none."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes() if path.is_file() else b""
        for path in sorted(folder.rglob("*"))
    }


def dice_for(seed: int, *about: object) -> random.Random:
    return random.Random(f"{seed} {about}")
