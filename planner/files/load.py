"""Load our files: bytes to models, with every finding on its line. Nothing here raises for what a file holds."""

from __future__ import annotations

import hashlib
import os
import re
from collections.abc import Callable, Mapping
from dataclasses import replace
from functools import cache, lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Any, cast

from pydantic import BaseModel

from planner.domain.base import T
from planner.domain.findings import Finding, UserError, has_errors
from planner.domain.library_review import LibraryReview
from planner.domain.movement_library import Library
from planner.files.digest import sha256_of
from planner.files.document import Document, Loaded
from planner.files.gather import Gathered
from planner.files.kinds import LIBRARY_KINDS, file_kind, model_of
from planner.files.locate import LIBRARY, packaged
from planner.files.render import in_order
from planner.files.shape import validate
from planner.files.syntax import read_tree
from planner.files.text import split_lines

if TYPE_CHECKING:  # each loader imports the models it reads: building them takes as long as reading a file
    from planner.domain.athlete import Athlete
    from planner.domain.benchmarks import Benchmarks
    from planner.domain.block import Block
    from planner.domain.follow_up import FollowUp
    from planner.domain.squad_rules import SquadRules
    from planner.domain.template import Template
    from planner.domain.test_sheet import TestSheet
    from planner.domain.training_log import TrainingLog
    from planner.domain.training_squad import Squad
    from planner.domain.usual_gyms import UsualGyms

MOST_ENTRIES = 10_000  # in a folder that is read as a library
_LIKE_OURS = re.compile(rb"^\s*(file:\s*[\"']?(movements|equipment)|movements:|- id:)", re.MULTILINE)
LARGEST_READ_bytes = 128 * 2**20  # into memory; the readers of text and of force records have lower limits of their own


def load_athlete(path: str | Path, display: str | None = None, *, library: Library | None = None) -> Loaded[Athlete]:
    """An athlete's file: shape, then references where a library is given, then sense."""
    return _checked_athlete(_load(path, display, "athlete/1"), library)


def load_athlete_bytes(raw: bytes, path: str, library: Library | None = None) -> Loaded[Athlete]:
    return _checked_athlete(cast("Loaded[Athlete]", load_bytes(raw, path, ("athlete/1",))), library)


def _checked_athlete(loaded: Loaded[Athlete], library: Library | None) -> Loaded[Athlete]:
    from planner.files.references import athlete_references
    from planner.files.sense.athlete_sense import athlete_sense

    if library is not None:
        loaded = then(loaded, lambda one: athlete_references(one, library))
    return then(loaded, athlete_sense)


def load_template(path: str | Path, display: str | None = None) -> Loaded[Template]:
    """A template: shape, then sense."""
    from planner.files.sense.template_sense import template_sense

    return then(_load(path, display, "template/1"), template_sense)


def load_block(path: str | Path, display: str | None = None) -> Loaded[Block]:
    return _load(path, display, "block/1")


def load_log(path: str | Path, display: str | None = None) -> Loaded[TrainingLog]:
    """A log: shape, then whether it makes sense by itself; ``log_references`` holds it against its block."""
    from planner.files.sense.log_sense import log_sense

    return then(_load(path, display, "log/1"), log_sense)


def load_follow_up(path: str | Path, display: str | None = None) -> Loaded[FollowUp]:
    return _load(path, display, "follow-up/1")


def load_usual_gyms(path: str | Path, display: str | None = None) -> Loaded[UsualGyms]:
    return _load(path, display, "usual-gyms/1")


def load_test_sheet(path: str | Path, display: str | None = None) -> Loaded[TestSheet]:
    """A battery for spreadsheets: shape, then whether each heading means one thing."""
    from planner.files.sense.test_sheet_sense import test_sheet_sense

    return then(_load(path, display, "test-sheet/1"), test_sheet_sense)


def load_squad(path: str | Path, display: str | None = None) -> Loaded[Squad]:
    """A squad's file: shape, then sense."""
    from planner.files.sense.squad_sense import squad_sense

    return then(_load(path, display, "squad/1"), squad_sense)


def load_squad_rules(path: str | Path, display: str | None = None) -> Loaded[SquadRules]:
    return _load(path, display, "squad-rules/1")


def load_benchmarks(path: str | Path, display: str | None = None) -> Loaded[Benchmarks]:
    return _load(path, display, "benchmarks/1")


def _load(path: str | Path, display: str | None, kind: str) -> Loaded[Any]:
    return cast("Loaded[Any]", load_file(path, display, (kind,)))


def then(loaded: Loaded[T], phase: Callable[[Loaded[T]], list[Finding]]) -> Loaded[T]:
    """Run a later phase on what was loaded, unless there are errors. Errors take the value away; warnings do not."""
    if loaded.value is None or has_errors(loaded.findings):
        return loaded
    found = phase(loaded)
    value = None if has_errors(found) else loaded.value
    return replace(loaded, value=value, findings=tuple(in_order([*loaded.findings, *found])))


def load_file(path: str | Path, display: str | None = None, kinds: tuple[str, ...] = ()) -> Loaded[BaseModel]:
    """Any file of ours, by the kind its first line states; ``kinds`` limits which are allowed."""
    shown = display or str(path)
    raw, findings = read_bytes(Path(path), shown)
    if raw is None:
        return Loaded(None, tuple(findings), "", shown)
    return load_bytes(raw, shown, kinds, Path(path))


def load_bytes(raw: bytes, path: str, kinds: tuple[str, ...] = (), at: Path | None = None) -> Loaded[BaseModel]:
    """As ``load_file``, from bytes already read. Phases: syntax, kind, shape; the first that fails stops.

    ``at``: where the file is, so that the limits a template names are looked for near it.
    """
    digest = sha256_of(raw)
    document, findings = read_document(raw, path, digest)
    if document is None:
        return Loaded(None, tuple(findings), digest, path)
    kind, findings = file_kind(document, kinds)
    if kind is None:
        return Loaded(None, tuple(findings), digest, path, (document,))
    if kind == "template/1":
        from planner.files.whole_template import whole_template

        document, findings = whole_template(document, at, load_file)
        if findings:
            return Loaded(None, tuple(findings), document.sha256, path, (document,))
        digest = document.sha256
    notes: list[Finding] = []
    if kind == "benchmarks/1":
        from planner.files.older_benchmarks import filled_in

        document, notes = filled_in(document, load_file)
    value, findings = validate(model_of(kind), document)
    return Loaded(value, (*findings, *notes), digest, path, (document,))


def read_bytes(path: Path, display: str) -> tuple[bytes | None, list[Finding]]:
    try:
        if path.exists() and not path.is_file() and not path.is_dir():  # it may have no end, or keep us waiting
            message = "this is a device or a pipe, not a file"
            return None, [Finding(display, 0, 0, "cannot-read", message, "write it to a file first")]
        size = path.stat().st_size
        if size > LARGEST_READ_bytes:
            message = f"the file is {size / 2**20:.0f} MiB, larger than any of ours"
            return None, [Finding(display, 0, 0, "too-large", message, "check the path")]
        return path.read_bytes(), []
    except FileNotFoundError:
        return None, [Finding(display, 0, 0, "cannot-read", "there is no such file", "check the path")]
    except IsADirectoryError:
        return None, [Finding(display, 0, 0, "cannot-read", "this is a folder, not a file", "name a file in it")]
    except (OSError, ValueError) as error:
        reason = error.strerror if isinstance(error, OSError) and error.strerror else "the path is not valid"
        message = f"the file cannot be read: {reason}"
        return None, [Finding(display, 0, 0, "cannot-read", message, "check the path and its permissions")]


def read_document(raw: bytes, path: str, digest: str) -> tuple[Document | None, list[Finding]]:
    document, findings = _read_once(raw, path, digest)
    return document, list(findings)


@lru_cache(maxsize=256)  # templates share their limits, and a folder is read again to check a change of one file
def _read_once(raw: bytes, path: str, digest: str) -> tuple[Document | None, tuple[Finding, ...]]:
    root, text, findings = read_tree(raw, path)
    if root is None or findings:
        return None, tuple(findings)
    return Document(path, digest, text, tuple(split_lines(text)), root), ()


def yaml_files(folder: Path) -> list[tuple[str, Path]]:
    """The folder's YAML files with their names relative to it, sorted by name; hidden ones are left out.

    Raises UserError for a folder that holds more than any library, such as a whole disk.
    """
    if folder.is_dir():
        os.scandir(folder).close()  # rglob silently finds nothing in a folder that may not be read
    found = []
    for number, path in enumerate(folder.rglob("*")):
        if number == MOST_ENTRIES:
            message = f"this folder holds more than {MOST_ENTRIES:,} files and folders"
            raise UserError([Finding(folder.name or str(folder), 0, 0, "too-many-files", message, "check the path")])
        name = path.relative_to(folder).as_posix()
        hidden = any(part.startswith(".") for part in name.split("/"))
        if path.suffix in (".yaml", ".yml") and path.is_file() and not hidden:
            found.append((name, path))
    return sorted(found)


def load_library(
    folder: str | Path, display: str | None = None, *, instead: Mapping[str, bytes] | None = None
) -> Loaded[Library]:
    """Every movement and equipment file of a folder as one library. An id written in two places is a finding.

    What is asked of it as a whole is in its review file, if it has one; see ``review_of``.

    ``instead``: contents for files of these names (relative to the folder), to see what an edit would do.
    """
    from planner.files.references import library_references
    from planner.files.sense.library_sense import library_sense, movement_sense

    shown = (display or str(folder)).rstrip("/")
    digest = hashlib.sha256()
    findings: list[Finding] = []
    gathered = Gathered()
    documents: list[Document] = []
    replaced = dict(instead or {})
    there = {**dict(yaml_files(Path(folder))), **{name: Path(folder) / name for name in replaced}}
    for name, path in sorted(there.items()):
        raw, problems = (replaced[name], []) if name in replaced else read_bytes(path, f"{shown}/{name}")
        findings.extend(problems)
        if raw is None:
            gathered.blind = True
            continue
        digest.update(os.fsencode(name) + f"\0{len(raw)}\0".encode() + raw)
        loaded = load_bytes(raw, f"{shown}/{name}", LIBRARY_KINDS)
        findings.extend(loaded.findings)
        documents.extend(loaded.documents)
        gathered.add(loaded, raw)
    findings += [_not_read(path, f"{shown}/{name}") for name, path in _files_not_read(Path(folder))]
    if not there:
        message = "no library files (*.yaml) in this folder"
        findings.append(Finding(shown, 0, 0, "no-library", message, "check the path"))
    findings = sorted([*findings, *gathered.findings])
    whole = Loaded(gathered.library(), (), digest.hexdigest(), shown, tuple(documents), gathered.roots)
    # Names are always checked, the library as a whole only where all of it could be read.
    named = [] if gathered.blind else library_references(whole, sorted(gathered.stated))
    findings = in_order([*findings, *named, *movement_sense(whole)])
    whole = replace(whole, value=None if has_errors(findings) else whole.value, findings=tuple(findings))
    return then(whole, lambda one: library_sense(one, gathered.review or _shipped_review()))


def _files_not_read(folder: Path) -> list[tuple[str, Path]]:
    """Files that hold movements by the look of them, under a name that is not read."""
    named = sorted((path.relative_to(folder).as_posix(), path) for path in folder.rglob("*"))
    others = [(name, path) for name, path in named if path.suffix not in (".yaml", ".yml") and "/." not in f"/{name}"]
    return [(name, path) for name, path in others if path.is_file() and _LIKE_OURS.search(_glance(path))]


def _glance(path: Path) -> bytes:
    try:
        with path.open("rb") as stream:
            return stream.read(4096)
    except OSError:
        return b""


def _not_read(path: Path, shown: str) -> Finding:
    message = "this file is not read: only files that end in .yaml are"
    hint = f"rename it to {path.stem}.yaml, or move it out of the folder"
    return Finding(shown, 0, 0, "not-read", message, hint, level="note")


def review_of(library: Library) -> LibraryReview:
    """What is asked of a library as a whole: by its own review file, else by the one of the shipped library."""
    return library.review or _shipped_review()


@cache
def _shipped_review() -> LibraryReview:
    name = "review.yaml"
    loaded: Loaded[LibraryReview] = _load(packaged(LIBRARY) / name, f"{LIBRARY}/{name}", "library-review/1")
    return loaded.require()
