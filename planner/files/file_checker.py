"""Check any file or folder of ours: shape, references, sense. A block's rules are audited above this floor."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Sequence
from pathlib import Path
from typing import cast

from pydantic import BaseModel

from planner.domain.athlete import Athlete
from planner.domain.base import T
from planner.domain.findings import Finding, UserError
from planner.domain.movement_library import Library
from planner.domain.template import Template
from planner.domain.test_sheet import TestSheet
from planner.domain.training_squad import Squad
from planner.domain.usual_gyms import UsualGyms
from planner.files.document import Loaded
from planner.files.kinds import LIBRARY_KINDS
from planner.files.load import load_file, load_library, load_squad, load_template, load_test_sheet, then, yaml_files
from planner.files.locate import LIBRARY, TEMPLATES, locate_library, locate_templates, template_names
from planner.files.references import athlete_references, benchmark_references, gym_references, squad_references
from planner.files.render import in_order
from planner.files.sense.athlete_sense import athlete_sense
from planner.files.sense.reach import reach_findings

_LIBRARY_KINDS = tuple(kind.partition("/")[0] for kind in LIBRARY_KINDS)
_STATED_KIND = re.compile(rb"^file:[ ]*[\"']?([a-z-]+)", re.MULTILINE)


class Checker:
    """Checks several paths and reads each library once.

    ``library`` is the folder that movements are looked up in; else it is looked for near the file, as planning does.
    ``rule_ids`` are the rules an athlete's file may name in ``allow``; left out, they are not checked.
    """

    def __init__(self, library: str | Path | None = None, rule_ids: Iterable[str] | None = None) -> None:
        self._library = library
        self._rule_ids = None if rule_ids is None else sorted(rule_ids)
        self._read: dict[Path, Loaded[Library]] = {}

    def check(self, path: str | Path) -> list[Finding]:
        """Every finding on a file, or on all files of a folder, sorted by place."""
        target, shown = Path(path), str(path).rstrip("/") or "/"
        if not target.is_dir():
            if _stated_kind(target) in _LIBRARY_KINDS:
                return self._check_library_file(target, shown)
            return in_order(self._check_file(target, shown))
        files = yaml_files(target)
        if not files:
            hint = "name a folder with *.yaml files"
            return [Finding(shown, 0, 0, "nothing-to-check", "no YAML files in this folder", hint)]
        findings: list[Finding] = []
        roots = _library_roots([file for _, file in files if _stated_kind(file) in _LIBRARY_KINDS])
        for root in roots:
            findings += self._check_library(root, _joined(shown, root.relative_to(target).as_posix()))
        for name, file in files:
            if not any(root in file.parents for root in roots):
                findings += self._check_file(file, _joined(shown, name))
        return in_order(findings)

    def _check_file(self, path: Path, shown: str) -> Sequence[Finding]:
        loaded = load_file(path, shown)
        return [*self._phases_after(loaded, path, shown), *_editor_line(loaded, path, shown)]

    def _phases_after(self, loaded: Loaded[BaseModel], path: Path, shown: str) -> Sequence[Finding]:
        if isinstance(loaded.value, Athlete):
            return self._check_athlete(cast("Loaded[Athlete]", loaded)).findings
        if isinstance(loaded.value, Template):
            return load_template(path, shown).findings
        if isinstance(loaded.value, TestSheet):
            return load_test_sheet(path, shown).findings
        if isinstance(loaded.value, Squad):
            return self._with_names(load_squad(path, shown), squad_references, path)
        if isinstance(loaded.value, UsualGyms):
            return self._with_names(cast("Loaded[UsualGyms]", loaded), gym_references, path)
        if _stated_kind(path) == "benchmarks" and loaded.value is not None:
            return self._with_names(loaded, benchmark_references, path)
        return loaded.findings

    def _check_athlete(self, loaded: Loaded[Athlete]) -> Loaded[Athlete]:
        library = self._library_near(loaded.path)
        if library.value is None:
            return then(loaded, lambda one: [*_library_note(library), *athlete_sense(one)])
        known, names = library.value, template_names("blocks", loaded.path)
        rules = self._rule_ids
        loaded = then(loaded, lambda one: athlete_references(one, known, template_names=names, rule_ids=rules))
        return then(loaded, athlete_sense)

    def _with_names(
        self, loaded: Loaded[T], references: Callable[[Loaded[T], Library], list[Finding]], path: Path
    ) -> Sequence[Finding]:
        """The findings of a file, with those on the names that it takes from the library."""

        def phase(one: Loaded[T]) -> list[Finding]:
            library = self._library_near(path)
            return _library_note(library) if library.value is None else references(one, library.value)

        return then(loaded, phase).findings

    def _check_library(self, folder: Path, shown: str) -> list[Finding]:
        loaded = self._load(folder, shown)
        findings = list(loaded.findings)
        return findings if loaded.value is None else [*findings, *reach_findings(loaded, known_templates(folder))]

    def _check_library_file(self, path: Path, shown: str) -> list[Finding]:
        """A library file is read with its neighbours, which it refers to; only its own findings are reported."""
        folder = next((parent for parent in path.absolute().parents if parent.name == LIBRARY), path.absolute().parent)
        inside = path.absolute().relative_to(folder).as_posix()
        prefix = shown.removesuffix(inside).rstrip("/") or "."
        shown_folder = prefix if shown.endswith(inside) else folder.as_posix()
        found = self._check_library(folder, shown_folder)
        return in_order(finding for finding in found if finding.path == f"{shown_folder}/{inside}")

    def _library_near(self, path: str | Path) -> Loaded[Library]:
        located = locate_library(self._library, path)
        return self._load(located.path, located.display)

    def _load(self, folder: Path, shown: str) -> Loaded[Library]:
        key = folder.resolve()
        if key not in self._read:
            self._read[key] = load_library(folder, shown)
        return self._read[key]


def _editor_line(loaded: Loaded[BaseModel], path: Path, shown: str) -> list[Finding]:
    lines = loaded.documents[0].lines if loaded.documents else ()
    if not lines or not lines[0].startswith("# yaml-language-server:"):
        return []
    from planner.files.editor_lines import editor_line_findings  # here, since few files are copied elsewhere

    return editor_line_findings(path, shown, _stated_kind(path))


def _library_note(library: Loaded[Library]) -> list[Finding]:
    message = f"the library {library.path} has findings of its own, so movement names were not checked"
    return [Finding(library.path, 0, 0, "library-not-read", message, f"check {library.path} first", level="warning")]


def _library_roots(files: list[Path]) -> list[Path]:
    """The folders that hold library files, none inside another."""
    roots: list[Path] = []
    for folder in sorted({file.parent for file in files}, key=lambda folder: (len(folder.parts), folder)):
        if not any(root == folder or root in folder.parents for root in roots):
            roots.append(folder)
    return roots


def known_templates(near: Path) -> list[Template]:
    """Every template that can be read of a folder and those that come with the planner, each id once."""
    found: dict[str, Template] = {}
    try:
        folders = [locate_templates(near).path, locate_templates().path]
    except (FileNotFoundError, UserError):
        return []
    for folder in dict.fromkeys(path.resolve() for path in folders):
        for path in sorted((folder / "blocks").glob("*.yaml")):
            template = load_template(path, f"{TEMPLATES}/blocks/{path.name}").value
            if template is not None:
                found.setdefault(template.id, template)
    return list(found.values())


def _stated_kind(path: Path) -> str:
    """What a file says it is, from a glance at its first lines; "" if it says nothing."""
    if not path.is_file():
        return ""
    try:
        with path.open("rb") as stream:
            found = _STATED_KIND.search(stream.read(4096).removeprefix(b"\xef\xbb\xbf"))
    except OSError:
        return ""
    return found.group(1).decode("ascii") if found else ""


def _joined(folder: str, name: str) -> str:
    if name == ".":
        return folder
    return name if folder == "." else f"{folder}/{name}"
