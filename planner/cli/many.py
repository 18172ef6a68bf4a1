"""Commands that take many files: each in turn, and what is refused costs only its own file."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

import click

from planner.cli.output import findings_data, result, show_findings, to_json


def is_many(paths: Sequence[str]) -> bool:
    return len(paths) > 1 or Path(paths[0]).is_dir()


def one_by_one(
    ctx: click.Context,
    paths: Sequence[str],
    kind: str,
    work: Callable[[str], Any],
    *,
    as_json: bool = False,
    into: str | None = None,
) -> None:
    """Print what ``work`` makes of each file: text, data, or None where it writes a file of its own.

    One file is shown as it always is. Of several, each one's findings are shown, and the exit code is 1 where any is
    refused. ``kind``: what is taken from folders. ``into``: where a file is written for each, each with its own name.
    """
    from planner.domain.findings import UserError
    from planner.jobs.many_files import by_stem, files_named

    files = files_named(paths, kind)
    if not is_many(paths):
        _print(work(files[0]), as_json)
        return
    if into is not None:
        by_stem(files)
    told: list[Any] = []
    refused = False
    for path in files:
        try:
            told.append({"file": path, "result": work(path)} if as_json else work(path))
        except UserError as error:
            refused = True
            if as_json:
                told.append({"file": path, **findings_data(error.findings)})
            else:
                show_findings(error.findings)
    if as_json:
        result(to_json({"files": told}))
    else:
        result("\n".join(text for text in told if text))
    if refused:
        ctx.exit(1)


def _print(made: Any, as_json: bool) -> None:
    if made is not None:
        result(to_json(made) if as_json else made)


def file_in(folder: str, path: str, ending: str) -> str:
    """What is made of ``path`` in a folder, which is made first."""
    from planner.jobs.safe_output import STDOUT, make_folder

    if folder == STDOUT or Path(folder).suffix == ending:
        raise click.UsageError("-o is a folder where several files are named")
    make_folder(Path(folder))
    return (Path(folder) / Path(path).stem).as_posix() + ending
