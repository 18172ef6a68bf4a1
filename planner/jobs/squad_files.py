"""A squad's file with the athletes that it names."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from planner.domain.findings import Finding, UserError
from planner.domain.training_squad import Squad
from planner.files.document import Loaded
from planner.files.load import load_squad
from planner.files.suggest import did_you_mean
from planner.files.tree import find
from planner.files.values import Data, to_data
from planner.jobs.many_files import files_in

SQUAD_FILE = "squad.yaml"
# What the squad's file gives to new athletes as it is written there.
BEGINS = ("training", "equipment", "approach", "template", "practices", "matches")


@dataclass(frozen=True)
class SquadFiles:
    """``athletes``: the path of each athlete's file by its name without .yaml, in the order of the names."""

    loaded: Loaded[Squad]
    folder: Path
    athletes: dict[str, str]

    @property
    def squad(self) -> Squad:
        return self.loaded.require()

    @property
    def blocks(self) -> Path:
        return self.folder / self.squad.blocks

    def block(self, athlete: str, blocks: Path | None = None) -> Path:
        return (blocks or self.blocks) / f"{athlete}.yaml"


def read_squad(path: str) -> SquadFiles:
    """UserError with all findings where a file is missing, named twice, or a group names somebody who is not there."""
    loaded = load_squad(path)
    squad = loaded.require()
    folder = Path(path).parent
    athletes: dict[str, str] = {}
    findings: list[Finding] = []
    for index, name in enumerate(squad.athletes):
        found = _files_at(folder / name)
        if not found:
            message, hint = f"'{name}' is not an athlete's file, nor a folder that holds any", "check the path"
            findings.append(loaded.finding(("athletes", index), "no-athletes", message, hint))
        for file in found:
            if athletes.get(file.stem, file.as_posix()) != file.as_posix():
                both = f"{athletes[file.stem]} and {file.as_posix()}"
                message = f"two athletes' files are both called {file.name}: {both}"
                findings.append(loaded.finding(("athletes", index), "name-twice", message, "rename one of them"))
            athletes[file.stem] = file.as_posix()
    findings += _not_there(loaded, list(athletes))
    if findings:
        raise UserError(findings)
    return SquadFiles(loaded, folder, dict(sorted(athletes.items())))


def _files_at(path: Path) -> list[Path]:
    if path.is_dir():
        return files_in(path, "athlete")  # a folder may hold the squad's own file, blocks and logs too
    return [path] if path.is_file() else []


def _not_there(loaded: Loaded[Squad], athletes: list[str]) -> list[Finding]:
    squad = loaded.require()
    named = [
        (("groups", n, "athletes", at), one) for n, g in enumerate(squad.groups) for at, one in enumerate(g.athletes)
    ]
    named += [(("wishes", n, "athlete"), w.athlete) for n, w in enumerate(squad.wishes) if w.athlete is not None]  # type: ignore[misc]
    return [
        loaded.finding(
            path, "unknown-athlete", f"there is no athlete's file '{name}.yaml'", did_you_mean(name, athletes)
        )
        for path, name in named
        if name not in athletes
    ]


def begins_with(loaded: Loaded[Squad]) -> dict[str, Data]:
    """What new athletes' files get from the squad's file, as it is written there."""
    root = loaded.documents[0].root
    found = {name: find(root, (name,)) for name in BEGINS}
    return {name: to_data(node)[0] for name, node in found.items() if node is not None}
