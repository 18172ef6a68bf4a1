"""The blocks of a squad, and who trains on a day."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path

from planner.domain.block import Block, Session
from planner.domain.findings import Finding, UserError
from planner.domain.movement import Movement
from planner.files.load import load_athlete, load_block, load_library
from planner.jobs.block_references import follow
from planner.jobs.changed_athlete import changed_athlete
from planner.jobs.squad_files import SquadFiles
from planner.report.terminal import first_of
from planner.starts.timed_session import TimedSession, timed_session
from planner.units import counted

_MOST_NAMED = 6
Progress = Callable[[str], None]


@dataclass
class SquadBlocks:
    """The blocks by athlete, their files, the movements that their items name; ``missing``: who has none.

    ``changed``: whose file has changed; ``sore``: whose pain no block is planned over, so that they get no
    start and no card.
    """

    blocks: dict[str, Block] = field(default_factory=dict)
    paths: dict[str, Path] = field(default_factory=dict)
    movements: dict[str, Mapping[str, Movement]] = field(default_factory=dict)
    missing: list[Finding] = field(default_factory=list)
    changed: list[Finding] = field(default_factory=list)
    sore: dict[str, list[Finding]] = field(default_factory=dict)

    @property
    def told(self) -> list[Finding]:
        return [*self.missing, *self.changed, *(one for found in self.sore.values() for one in found)]


def read_blocks(squad: SquadFiles, folder: Path | None = None, progress: Progress = lambda text: None) -> SquadBlocks:
    """UserError where there is no block at all, or one that cannot be read."""
    found = SquadBlocks()
    missing: list[str] = []
    libraries: dict[Path, Mapping[str, Movement]] = {}
    broken: list[Finding] = []
    for name in squad.athletes:
        path = squad.block(name, folder)
        progress(f"reading {path.name}")
        if not path.is_file():
            missing.append(name)
            continue
        loaded = load_block(path, path.as_posix())
        if loaded.value is None:
            broken += loaded.findings
            continue
        try:
            changed = changed_athlete(loaded, path.parent)
            found.changed += [] if changed and _only_tested_again(loaded.value, path.parent) else changed
        except UserError as refusal:
            found.sore[name] = [replace(one, level="warning") for one in refusal.findings]
        library = follow(loaded.value.library.path, path.parent)
        if library not in libraries:
            libraries[library] = load_library(library, loaded.value.library.path).require().movements
        found.paths[name] = path
        found.blocks[name], found.movements[name] = loaded.value, libraries[library]
    if broken:
        raise UserError(broken)
    hint = f"plan: jumpblock squad plan {squad.loaded.path}"
    if not found.blocks:
        raise UserError([Finding(squad.loaded.path, 0, 0, "no-block", "no athlete of the squad has a block", hint)])
    if missing:
        found.missing.append(Finding(squad.loaded.path, 0, 0, "no-block", _without(missing), hint, level="warning"))
    return found


def _without(missing: list[str]) -> str:
    if len(missing) == 1:
        return f"{missing[0]} has no block"
    return f"{counted(len(missing), 'athlete')} have no block: {first_of(missing, _MOST_NAMED)}"


def _only_tested_again(block: Block, folder: Path) -> bool:
    """Whether the athlete's file has nothing new but tests of the block's last day or later, as every retest brings."""
    from planner.jobs.athlete_since import changed_lines  # here: an unchanged athlete needs neither
    from planner.jobs.trained_block import last_test_day

    place = follow(block.athlete.path, folder)
    athlete = load_athlete(place).value if place.is_file() else None
    if athlete is None:
        return False
    before = tuple(test for test in athlete.tests if test.date < last_test_day(block))
    return len(before) < len(athlete.tests) and not changed_lines(block, athlete.model_copy(update={"tests": before}))


def first_day(blocks: SquadBlocks) -> datetime.date:
    """The first day on which anybody of the squad trains."""
    return min(block.weeks[0].sessions[0].date for block in blocks.blocks.values())


def sessions_on(blocks: SquadBlocks, date: datetime.date) -> Iterator[TimedSession]:
    for name, block in blocks.blocks.items():
        for session in session_on(block, date) if name not in blocks.sore else ():
            yield timed_session(name, block.for_athlete.name, session, blocks.movements[name])


def session_on(block: Block, date: datetime.date) -> list[Session]:
    return [session for session in block.sessions if session.date == date][:1]
