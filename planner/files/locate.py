"""Where the library, the templates and the benchmarks come from: an option, else the coach's folder, else the package.

Every answer comes with the path to show (never a place inside an installation) and how it was chosen, to be printed.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from dataclasses import dataclass
from importlib import resources
from pathlib import Path
from typing import Literal, get_args

from planner.domain.findings import Finding, UserError
from planner.files.suggest import did_you_mean

Kind = Literal["blocks", "limits", "benchmarks", "cards", "follow-up", "gyms", "athletes", "sheets", "squads"]
LIBRARY, TEMPLATES = "exercise_library", "templates"
PACKAGED = "the one that comes with the planner"


@dataclass(frozen=True)
class Located:
    """``path`` to read, ``display`` to show, ``how`` it was found: a clause such as 'next to the athlete's file'."""

    path: Path
    display: str
    how: str

    @property
    def is_packaged(self) -> bool:
        return self.how == PACKAGED

    def __truediv__(self, name: str) -> Located:
        return Located(self.path / name, f"{self.display}/{name}", self.how)


def packaged(name: str) -> Path:
    """A folder shipped with the package, or the one next to it in a checkout. FileNotFoundError naming both places."""
    package = Path(str(resources.files("planner")))
    inside, checkout = package / "_data" / name, package.parent / name
    for folder in (inside, checkout):
        if folder.is_dir():
            return folder
    raise FileNotFoundError(f"'{name}' is neither at {inside} nor at {checkout}")


def locate_library(explicit: str | Path | None = None, near: str | Path | None = None) -> Located:
    """The library's folder: ``explicit``, else near the file ``near`` (the athlete's, say), else the packaged one."""
    return _folder(LIBRARY, explicit, near)


def locate_templates(near: str | Path | None = None, explicit: str | Path | None = None) -> Located:
    """The folder that holds blocks/, benchmarks/, cards/ and athletes/."""
    return _folder(TEMPLATES, explicit, near)


def locate_template(name: str, near: str | Path | None = None, templates: str | Path | None = None) -> Located:
    """A block template by name (``eight-week``) or by path (``mine.yaml``). UserError if there is none."""
    return _located(name, "blocks", "template", near, templates)


def locate_limits(name: str, template: Path | None) -> Located:
    """The limits that a template names: next to it, near it, else the packaged ones. A path is relative to it."""
    if template is None:
        return _located(name, "limits", "limits file", None, None)
    if _is_path(name):
        return _located(str(template.parent / name), "limits", "limits file", None, None)
    own = template.absolute().parent.parent
    return _located(name, "limits", "limits file", template, own if (own / "limits").is_dir() else None)


def locate_benchmarks(near: str | Path | None = None, templates: str | Path | None = None) -> Located:
    return _located("standard", "benchmarks", "benchmarks file", near, templates)


def locate_card_layout(near: str | Path | None, templates: str | Path | None) -> Located:
    return _located("standard", "cards", "card layout", near, templates)


def locate_follow_up(near: str | Path | None = None) -> Located:
    return _located("standard", "follow-up", "follow-up file", near, None)


def locate_usual_gyms(near: str | Path | None) -> Located:
    return _located("standard", "gyms", "file of gyms", near, None)


def locate_sheet(name: str = "standard", near: str | Path | None = None) -> Located:
    """A battery of tests for spreadsheets, by name or by path."""
    return _located(name, "sheets", "battery", near, None)


def locate_squad_rules(near: str | Path | None = None) -> Located:
    return _located("standard", "squads", "file of squad rules", near, None)


def template_names(kind: Kind = "blocks", near: str | Path | None = None) -> list[str]:
    """Names that may be chosen: those of the coach's folder and the packaged ones, sorted."""
    folders = {located.path / kind for located in _template_folders(near, None)}
    return sorted({path.stem for folder in folders if folder.is_dir() for path in folder.glob("*.yaml")})


def shown(path: str | Path) -> str:
    """A path as to be printed: relative to the working folder where it is inside it, else its last two parts."""
    absolute = Path(os.path.abspath(path))
    try:
        return absolute.relative_to(Path.cwd()).as_posix()
    except ValueError:
        return "/".join(absolute.parts[-1:] if absolute.is_dir() else absolute.parts[-2:])


def _folder(name: str, explicit: str | Path | None, near: str | Path | None) -> Located:
    if explicit is not None:
        folder = Path(explicit)
        if not folder.is_dir():
            finding = Finding(shown(folder), 0, 0, "cannot-read", "there is no such folder", "check the path")
            raise UserError([finding])
        return Located(folder, shown(folder), "as asked for")
    return _near(name, near) or Located(packaged(name), name, PACKAGED)


def _near(name: str, near: str | Path | None) -> Located | None:
    for step, folder in enumerate(_upwards(near)):
        if _is_ours(folder / name):
            how = "next to the athlete's file" if step == 0 else "in a folder above the athlete's file"
            return Located(folder / name, shown(folder / name), how)
    return None


def _is_ours(folder: Path) -> bool:
    """'templates' is a common name for a folder: only one that holds kinds of ours counts."""
    if folder.name == TEMPLATES:
        return any((folder / kind).is_dir() for kind in get_args(Kind))
    return folder.is_dir()


def _upwards(near: str | Path | None) -> Iterator[Path]:
    """The folder of a file and all above it. A folder given itself counts as the first."""
    if near is None:
        return
    start = Path(os.path.abspath(near))
    start = start if start.is_dir() else start.parent
    yield start
    yield from start.parents


def _template_folders(near: str | Path | None, explicit: str | Path | None) -> list[Located]:
    """The coach's folder first, then the packaged one: a name not in the first is looked for in the second."""
    first = _folder(TEMPLATES, explicit, near)
    second = Located(packaged(TEMPLATES), TEMPLATES, PACKAGED)
    return [first] if first.path.resolve() == second.path.resolve() else [first, second]


def _is_path(name: str) -> bool:
    return name.endswith((".yaml", ".yml")) or "/" in name or os.sep in name


def _located(name: str, kind: Kind, what: str, near: str | Path | None, templates: str | Path | None) -> Located:
    if _is_path(name):
        path = Path(name)
        if not path.is_file():
            raise UserError([Finding(shown(path), 0, 0, "cannot-read", "there is no such file", "check the path")])
        return Located(path, shown(path), "as asked for")
    for folder in _template_folders(near, templates):
        path = folder.path / kind / f"{name}.yaml"
        if path.is_file():
            return Located(path, f"{folder.display}/{kind}/{name}.yaml", folder.how)
    hint = did_you_mean(name, template_names(kind, near))
    message = f"there is no {what} called '{name}'"
    raise UserError([Finding(f"{TEMPLATES}/{kind}", 0, 0, f"unknown-{what.split()[-1]}", message, hint)])
