"""Every block of a squad, in processes. A second run does only what is missing or has changed."""

from __future__ import annotations

import datetime
import json
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import asdict, dataclass, replace
from pathlib import Path
from typing import Any, Literal

from planner.domain.findings import UserError
from planner.files.atomic import write_atomically
from planner.files.digest import file_sha256
from planner.files.load import load_block, load_log
from planner.jobs.check_log import log_path
from planner.jobs.plan_one import Planned, PlanTask, figures_of, inputs_digest, plan_one, refused, sources_of
from planner.jobs.safe_output import make_folder
from planner.jobs.worker_pool import in_processes

RECORD = "squad-plan.json"
CRASHED = ("its process ended before it was done, twice; the others are not touched: run the command again",)
Status = Literal["planned", "unchanged", "kept", "refused", "crashed"]
Runner = Callable[[Sequence[PlanTask]], Iterable[tuple[int, Planned | None]]]


@dataclass(frozen=True)
class SquadRow:
    """One athlete of the table: ``planned`` as in ``plan_one``. ``kept``: a block that would be planned otherwise
    now, but has a log: it is being trained, or was. ``after``: the block that it follows, "" for none of the
    folder; None where no folder was given."""

    athlete: str
    status: Status
    planned: Planned
    after: str | None = None

    @property
    def data(self) -> dict[str, Any]:
        after = {} if self.after is None else {"after": self.after}
        figures = {"athlete": self.athlete, "status": self.status, **self.planned.figures, **after}
        return {**figures, "why": list(self.planned.why)}


@dataclass(frozen=True)
class PlanOptions:
    """``only``: names of athletes; () for all. ``after``: a folder of blocks; who has one there goes on from it."""

    template: str | None = None
    start: datetime.date | None = None
    budget: float | None = None
    library: str | None = None
    templates: str | None = None
    force: bool = False
    only: tuple[str, ...] = ()
    after: Path | None = None


def plan_squad(
    athletes: Mapping[str, str],
    folder: Path,
    options: PlanOptions,
    *,
    jobs: int = 1,
    runner: Runner | None = None,
    progress: Callable[[str], None] = lambda text: None,
) -> list[SquadRow]:
    """A row for each athlete, in the order given. Blocks and record are written as each is done.

    ``athletes``: their files by name. ``runner``: where the tasks run; left out, in ``jobs`` processes here.
    """
    names = [name for name in athletes if not options.only or name in options.only]
    record = _Record(folder)
    rows: dict[str, SquadRow] = {}
    tasks, digests = dict[str, PlanTask](), dict[str, str]()
    for name in names:
        task = _task(athletes[name], folder / f"{name}.yaml", options)
        progress(f"reading {name}")
        try:
            digests[name] = inputs_digest(task, sources_of(task))
        except UserError as refusal:
            rows[name] = SquadRow(name, "refused", refused(task, refusal.findings))
            continue
        kept = None if options.force else record.kept(name, digests[name])
        if kept is not None:
            rows[name] = SquadRow(name, "refused" if kept.why else "unchanged", kept)
        elif not options.force and (trained := _trained(Path(task.block))) is not None:
            rows[name] = SquadRow(name, "kept", trained)
        else:
            tasks[name] = task
    make_folder(folder)
    for name, planned in _run(tasks, runner or (lambda asked: in_processes(plan_one, asked, jobs)), progress):
        if planned is None:
            rows[name] = SquadRow(name, "crashed", Planned(name, CRASHED))
            continue
        rows[name] = SquadRow(name, "refused" if planned.why else "planned", planned)
        if planned.lasting:
            record.keep(name, digests[name], planned)
    if options.after is None:
        return [rows[name] for name in names]
    return [replace(rows[name], after=_before(folder / f"{name}.yaml", options) or "") for name in names]


def _trained(path: Path) -> Planned | None:
    """The block that is there, where anything is logged of it; another one in its place would leave the log alone."""
    at = log_path(path)
    if not (path.is_file() and at.is_file()):
        return None
    log, block = load_log(at, at.as_posix()).value, load_block(path, path.as_posix()).value
    if block is None or (log is not None and not log.sessions):
        return None
    return Planned(block.for_athlete.name, (), file_sha256(path), figures_of(block))


def _task(athlete: str, block: Path, options: PlanOptions) -> PlanTask:
    return PlanTask(
        athlete,
        block.as_posix(),
        options.template,
        options.start,
        options.budget,
        options.library,
        options.templates,
        options.force,
        _before(block, options),
    )


def _before(block: Path, options: PlanOptions) -> str | None:
    """The block of the same name in the folder of those before."""
    path = options.after / block.name if options.after is not None else None
    return path.as_posix() if path is not None and path.is_file() else None


def _run(
    tasks: dict[str, PlanTask], runner: Runner, progress: Callable[[str], None]
) -> Iterator[tuple[str, Planned | None]]:
    names = list(tasks)
    progress(f"planning {len(names)} blocks")
    for done, (number, planned) in enumerate(runner(list(tasks.values())), start=1):
        yield names[number], planned
        progress(f"planned {done} of {len(names)}, last {names[number]}")


class _Record:
    """What was planned from what, next to the blocks: a file of data that nobody needs to edit."""

    def __init__(self, folder: Path) -> None:
        self._path = folder / RECORD
        self._folder = folder
        try:
            found = json.loads(self._path.read_text("utf-8"))
            self._kept: dict[str, Any] = found if isinstance(found, dict) else {}
        except (OSError, ValueError):  # none yet, or broken: everything is planned again
            self._kept = {}

    def kept(self, name: str, digest: str) -> Planned | None:
        """What came of the same inputs, where the block's file is still the one that was written."""
        entry: Any = self._kept.get(name)
        try:
            planned = replace(Planned(**entry["planned"]), why=tuple(entry["planned"]["why"]))
        except (TypeError, KeyError):
            return None
        same = planned.why or planned.sha256 == file_sha256(self._folder / f"{name}.yaml")
        return planned if entry["inputs"] == digest and same else None

    def keep(self, name: str, digest: str, planned: Planned) -> None:
        self._kept[name] = {"inputs": digest, "planned": asdict(planned)}
        content = json.dumps(dict(sorted(self._kept.items())), ensure_ascii=False, indent=1) + "\n"
        write_atomically(self._path, content.encode("utf-8"))
