"""What Tab completes besides commands, options and files: sessions of a block, templates, movements.

Read from the text of the files, since a shell asks at every press of the key; a file that cannot be read completes
nothing.
"""

from __future__ import annotations

import re
from pathlib import Path

import click
from click.shell_completion import CompletionItem

_SESSION = re.compile(r"^ *- id: [\"']?(w\d+s\d+)[\"']?\s*$", re.MULTILINE)
_ENTRY = re.compile(r"^ *- id: [\"']?([a-z0-9-]+)", re.MULTILINE)
_MOVEMENTS = "file: movements/1"


def sessions(ctx: click.Context, param: click.Parameter, incomplete: str) -> list[str]:
    """Of the command's BLOCK."""
    return _beginning(_SESSION.findall(_text(Path(ctx.params.get("block") or ""))), incomplete)


def templates(ctx: click.Context, param: click.Parameter, incomplete: str) -> list[CompletionItem]:
    """By name, those near the athlete's file first; else a file."""
    from planner.files.locate import template_names

    near = next(iter(ctx.params.get("athletes") or ()), None) or ctx.params.get("athlete") or Path.cwd()
    named = _beginning(template_names("blocks", near), incomplete)
    return [CompletionItem(name) for name in named] or [CompletionItem(incomplete, type="file")]


def movements(ctx: click.Context, param: click.Parameter, incomplete: str) -> list[str]:
    """Of the library that the command reads."""
    from planner.domain.findings import UserError
    from planner.files.load import yaml_files
    from planner.files.locate import locate_library

    try:
        at = locate_library(ctx.params.get("library"), ctx.params.get("block") or Path.cwd())
        texts = [_text(path) for _, path in yaml_files(at.path)]
    except (UserError, OSError):
        return []
    ids = [name for text in texts if _MOVEMENTS in text for name in _ENTRY.findall(text)]
    return _beginning(sorted(ids), incomplete)


def _beginning(words: list[str], incomplete: str) -> list[str]:
    return [word for word in words if word.startswith(incomplete)]


def _text(path: Path) -> str:
    try:
        return path.read_text("utf-8", errors="replace")
    except (OSError, ValueError):
        return ""
