"""The blocks of a squad on other machines, by a scheduler that runs already. Each task carries its files with it."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from planner.domain.block_parts import PACKAGED_PREFIX
from planner.domain.findings import Finding, UserError
from planner.files.load import load_block, yaml_files
from planner.files.locate import Located, locate_follow_up
from planner.jobs.block_references import follow
from planner.jobs.check_log import log_path
from planner.jobs.plan_one import Planned, PlanTask, inputs_digest, plan_one, refused, sources_of
from planner.jobs.safe_output import block_output

RETRIES = 3  # of a task whose machine goes away
_CONNECT_s = 10
_PATHS = ("athlete", "block", "library", "templates", "after")  # of a task


@dataclass(frozen=True)
class Bundle:
    """``files``: by their path below the one folder that holds all of them; the task's paths are relative to it too."""

    task: PlanTask
    digest: str
    files: dict[str, bytes]


def on_cluster(address: str) -> Callable[[Sequence[PlanTask]], Iterator[tuple[int, Planned | None]]]:
    """A runner on the scheduler at ``address``, such as tcp://10.0.0.5:8786. UserError where it cannot be reached."""
    try:
        from distributed import Client
    except ImportError as error:
        message = "the package that talks to other machines is not installed"
        raise UserError([Finding("", 0, 0, "no-cluster", message, "install jumpblock[cluster]")]) from error
    try:
        client = Client(address, timeout=_CONNECT_s, set_as_default=False)
    except (OSError, ValueError) as error:
        message, hint = f"no scheduler answers at {address}", "start one: dask scheduler; check the address"
        raise UserError([Finding("", 0, 0, "no-cluster", message, hint)]) from error
    return lambda tasks: _run(client, tasks)


def _run(client: object, tasks: Sequence[PlanTask]) -> Iterator[tuple[int, Planned | None]]:
    from distributed import Client, as_completed

    assert isinstance(client, Client)
    with client:
        numbers: dict[str, int] = {}
        asked = []
        for number, bundle in bundles(tasks):
            if isinstance(bundle, Planned):
                yield number, bundle
                continue
            asked.append(client.submit(plan_bundle, bundle, retries=RETRIES, pure=False))
            numbers[asked[-1].key] = number
        for future in as_completed(asked, loop=client.loop):
            number = numbers[future.key]
            if future.status != "finished":
                yield number, None
                continue
            planned, raw = future.result()
            if raw:
                block_output(tasks[number].block, force=tasks[number].force).write(raw)
            yield number, planned


def bundles(tasks: Sequence[PlanTask]) -> Iterator[tuple[int, Bundle | Planned]]:
    """Each task's bundle with the task's number; its refusal where a file, such as the block before, cannot be read."""
    for number, task in enumerate(tasks):
        try:
            yield number, bundled(task)
        except UserError as refusal:
            yield number, refused(task, refusal.findings)


def bundled(task: PlanTask) -> Bundle:
    """The task with every file of the coach's that it needs; what came with the package is there already."""
    sources = sources_of(task)
    wanted = [Path(task.athlete)]
    for located in sources.at[1:]:
        wanted += _whole(located) if not located.is_packaged else []
    wanted += _of_block_before(Path(task.after)) if task.after is not None else []
    absolute = sorted({os.path.abspath(path) for path in wanted})
    root = os.path.commonpath([*absolute, os.path.dirname(os.path.abspath(task.block))])
    root = root if os.path.isdir(root) or not os.path.exists(root) else os.path.dirname(root)
    below = {name: _below(getattr(task, name), root) for name in _PATHS}
    template = _below(task.template, root) if _is_path(task.template) else task.template
    files = {os.path.relpath(path, root): Path(path).read_bytes() for path in absolute}
    return Bundle(replace(task, template=template, **below), inputs_digest(task, sources), files)  # type: ignore[arg-type]


def _whole(located: Located) -> list[Path]:
    """A library's folder whole; of a template or benchmarks the templates' folder, since one names another."""
    folder = located.path if located.path.is_dir() else located.path.parent.parent
    own = [] if located.path.is_dir() else [located.path]
    return [*own, *(path for _, path in yaml_files(folder))] if folder.name in ("templates", located.path.name) else own


def _of_block_before(path: Path) -> list[Path]:
    """The block, its log and the coach's files that it names."""
    block, log = load_block(path, path.as_posix()).require(), log_path(path)
    places = [
        follow(one.path, path.parent)
        for one in (block.athlete, block.library, block.template, block.benchmarks)
        if not one.path.startswith(PACKAGED_PREFIX)
    ]
    there = [place for place in places if place.exists()]
    rules = locate_follow_up(path)
    own = [one for one in (log,) if one.is_file()] + ([] if rules.is_packaged else [rules.path])
    return [path, *own, *(one for at in there for one in _whole(Located(at, "", "")))]


def _is_path(template: str | None) -> bool:
    return template is not None and template.endswith((".yaml", ".yml"))


def _below(path: str | None, root: str) -> str | None:
    return None if path is None else os.path.relpath(os.path.abspath(path), root)


def plan_bundle(bundle: Bundle) -> tuple[Planned, bytes]:
    """On the other machine: the files in a folder of their own, the block as ``plan_one`` makes it. Nothing is left."""
    with tempfile.TemporaryDirectory() as folder:
        for name, content in bundle.files.items():
            path = Path(folder) / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(content)
        there = {
            name: os.path.join(folder, value) for name in _PATHS if (value := getattr(bundle.task, name)) is not None
        }
        if bundle.task.template is not None and _is_path(bundle.task.template):
            there["template"] = os.path.join(folder, bundle.task.template)
        task = replace(bundle.task, **there)  # type: ignore[arg-type]
        if inputs_digest(task, sources_of(task)) != bundle.digest:
            other = "the other machine has another release of jumpblock; install the same one there"
            return Planned(Path(task.athlete).stem, (other,)), b""
        planned = plan_one(task)
        raw = Path(task.block).read_bytes() if not planned.why else b""
        why = tuple(line.replace(f"{folder}/", "") for line in planned.why)
        return replace(planned, why=why), raw
