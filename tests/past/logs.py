"""An invented block on disk with a log next to it, to be broken."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from planner.domain.block import Block
from planner.domain.findings import Finding
from planner.files.digest import plan_digest
from planner.files.dump import block_to_yaml
from planner.jobs.check_files import FileChecker
from tests.cards.invented_block import block as invented_block

LOG = """\
file: log/1
block: {path: ana-block.yaml, plan_sha256: DIGEST}
sessions:
  - session: w1s1
    date: 2026-01-05
    done: as-planned
    effort: 7
    minutes: 66 # the hall was late
    items:
      - {item: w1s1i4, load: 100 kg, reps: [6, 6, 5, 6], reps_in_reserve: [4, 3, 2]}
      - {item: w1s1i3, sets: 1, why: landings got loud}
    pain: [{joint: patellar-knee, side: left, before: 1, worst: 3, next_morning: 2}]
    body_mass: 81.4 kg
    note: slept badly
  - {session: w1s2, done: missed, why: ill}
extra:
  - {date: 2026-01-07, what: school match, minutes: 70, contacts: 60}
"""


@cache
def block() -> Block:
    """The cards' invented block, with its digest as a solver would leave it."""
    made = invented_block()
    return made.model_copy(update={"plan_sha256": plan_digest(made)})


def log_text(*changes: tuple[str, str]) -> str:
    """The log with each text replaced; it must be there once."""
    text = LOG.replace("DIGEST", block().plan_sha256)
    for old, new in changes:
        assert text.count(old) == 1, f"{old!r} is there {text.count(old)} times"
        text = text.replace(old, new)
    return text


def written(folder: Path, text: str) -> Path:
    (folder / "ana-block.yaml").write_text(block_to_yaml(block()), "utf-8")
    path = folder / "ana-block-log.yaml"
    path.write_text(text, "utf-8")
    return path


def findings(folder: Path, text: str) -> list[Finding]:
    """What ``jumpblock check`` finds in the log, the invented block next to it."""
    return FileChecker().check(written(folder, text))
