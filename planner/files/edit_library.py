"""Changes to a library on disk: made in memory first, checked as a whole, shown as a diff, written in one step."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from planner.domain.findings import Finding, UserError
from planner.domain.movement_library import Library
from planner.files.atomic import write_atomically
from planner.files.digest import sha256_of
from planner.files.document import Document, Loaded
from planner.files.edit import edited_bytes
from planner.files.edit_fields import ORDER, Assignment, dotted
from planner.files.edit_steps import CannotEdit, FileEdit, Insert, Put, Remove
from planner.files.edit_values import entry_lines
from planner.files.file_checker import known_templates
from planner.files.load import load_library, read_bytes, read_document, yaml_files
from planner.files.locate import Located
from planner.files.render import in_order
from planner.files.schema import editor_line
from planner.files.sense.reach import reach_findings
from planner.files.suggest import did_you_mean
from planner.files.text import diff_of
from planner.files.tree import ListNode, MappingNode, Scalar, find, is_blank
from planner.files.values import Data, to_data

_FAMILY = re.compile(rb"^family:[ ]*([\"']?)([a-z0-9-]+)\1[ ]*(?:#.*)?\r?$", re.MULTILINE)


@dataclass(frozen=True)
class WrittenMovement:
    """A movement as its file has it: entry ``index`` of the list ``movements`` of the file ``name`` in the library."""

    name: str
    raw: bytes
    document: Document
    index: int

    @property
    def data(self) -> dict[str, Data]:
        node = find(self.document.root, ("movements", self.index))
        data = to_data(node)[0] if node is not None else {}
        return data if isinstance(data, dict) else {}


@dataclass(frozen=True)
class LibraryChange:
    """What one file is to hold. ``before`` None: the file is new.

    ``loaded``: the library as it will be; ``new_findings``: what checking it says that it did not say before.
    """

    library: Located
    name: str
    before: bytes | None
    after: bytes
    loaded: Loaded[Library]
    new_findings: tuple[Finding, ...]

    @property
    def new_errors(self) -> list[Finding]:
        return [finding for finding in self.new_findings if finding.level == "error"]

    @property
    def shown(self) -> str:
        return f"{self.library.display}/{self.name}"

    def diff(self) -> str:
        return diff_of(self.before, self.after, self.shown)

    def write(self) -> None:
        """Write the file whole. UserError where the change brings an error, or where the file changed meanwhile."""
        if self.new_errors:
            raise UserError(self.new_errors)
        write_atomically(self.library.path / self.name, self.after, sha256_of(self.before))


def find_movement(library: Located, movement_id: str) -> WrittenMovement:
    """Where the movement is written, also in a library that has findings. UserError if it is nowhere."""
    known: list[str] = []
    broken: list[Finding] = []
    files = [(name, *read_bytes(path, f"{library.display}/{name}")) for name, path in yaml_files(library.path)]
    word = movement_id.encode("utf-8")
    # Files that hold the word come first: the others are read only to suggest what may have been meant.
    for name, raw, findings in sorted(files, key=lambda file: file[1] is None or word not in file[1]):
        shown = f"{library.display}/{name}"
        document, problems = (None, findings) if raw is None else read_document(raw, shown, "")
        broken += problems
        ids = _ids(document)
        if document is not None and raw is not None and movement_id in ids:
            return WrittenMovement(name, raw, document, ids.index(movement_id))
        known += [name for name in ids if name]
    message = f"the library {library.display} has no movement '{movement_id}'"
    hint = did_you_mean(movement_id, known) or "jumpblock library list shows them all"
    raise UserError([*broken, Finding("", 0, 0, "unknown-movement", message, hint)])


def _ids(document: Document | None) -> list[str]:
    """The id of each entry of a file's movements; "" where it states none."""
    entries = find(document.root, ("movements",)) if document is not None else None
    stated = [find(entry, ("id",)) for entry in entries.items] if isinstance(entries, ListNode) else []
    return [one.text if isinstance(one, Scalar) else "" for one in stated]


def change_movement(library: Located, movement_id: str, assignments: Sequence[Assignment]) -> LibraryChange:
    """The file of a movement with the fields changed. UserError where it cannot be done without touching more."""
    at = find_movement(library, movement_id)
    base = ("movements", at.index)
    node = find(at.document.root, base)
    edits: list[FileEdit] = []
    for one in assignments:
        path = (*base, *one.path)
        if one.drops and find(at.document.root, path) is None:
            message = f"'{movement_id}' has no {dotted(one.path)} to take out"
            raise UserError([at.document.finding(path, "nothing-there", message, "jumpblock library show lists it")])
        if one.drops:
            edits.append(Remove(path))
        else:
            edits += _puts(base, one, node)
    return _changed(library, at, edits)


def _puts(base: tuple[str | int, ...], one: Assignment, node: object) -> list[FileEdit]:
    """A value for a field inside one that is not there yet brings that one along."""
    value, path = one.value, one.path
    while len(path) > 1 and isinstance(node, MappingNode) and ((at := find(node, path[:-1])) is None or is_blank(at)):
        value = {str(path[-1]): value} if isinstance(path[-1], str) else [value]
        path = path[:-1]
    return [Put((*base, *path), value, ORDER if len(path) == 1 else ())]


def add_movement(
    library: Located, family_file: str, entry: Mapping[str, Data], *, after: str | None = None
) -> LibraryChange:
    """A new movement in a file that is there: behind the movement ``after`` of that file, else at the end."""
    path = library.path / family_file
    shown = f"{library.display}/{family_file}"
    raw, findings = read_bytes(path, shown)
    document, problems = (None, findings) if raw is None else read_document(raw, shown, "")
    entries = find(document.root, ("movements",)) if document is not None else None
    if raw is None or document is None or not isinstance(entries, ListNode):
        hint = "name another family, or fix the file first"
        raise UserError(problems or [Finding(shown, 0, 0, "no-movements", "this file has no list of movements", hint)])
    ids = _ids(document)
    index = ids.index(after) + 1 if after in ids else len(entries.items)
    at = WrittenMovement(family_file, raw, document, index)
    return _changed(library, at, [Insert(("movements",), index, entry)])


def remove_movement(library: Located, movement_id: str) -> LibraryChange:
    """The file of a movement without it. UserError where its file holds no other."""
    at = find_movement(library, movement_id)
    entries = find(at.document.root, ("movements",))
    if isinstance(entries, ListNode) and len(entries.items) == 1:
        message, hint = f"'{movement_id}' is the only movement of this file", "delete the file"
        raise UserError([at.document.finding(("movements", 0), "last-movement", message, hint)])
    return _changed(library, at, [Remove(("movements", at.index))])


def add_family(library: Located, family: str, entry: Mapping[str, Data]) -> LibraryChange:
    """A new file for a family of one movement."""
    name = f"{family}.yaml"
    if (library.path / name).exists():
        raise UserError([Finding(f"{library.display}/{name}", 0, 0, "already-there", "this file already exists", "")])
    head = _editor_line(library) + f"file: movements/1\nfamily: {family}\n"
    after = f"{head}movements:\n{entry_lines(entry, 2, 4, chr(10))}\n".encode()
    return _checked(library, name, None, after)


def _editor_line(library: Located) -> str:
    """The line for editors that the library's other files carry, so that a new one is completed like them."""
    for name, path in yaml_files(library.path):
        with path.open(encoding="utf-8", errors="replace") as stream:
            first = stream.readline().rstrip()
        if "/" not in name and first.startswith(editor_line("")):
            return f"{first}\n"
    return ""


def families(library: Located) -> dict[str, str]:
    """The family of each library file that states one, with the file's name: family -> file."""
    found: dict[str, str] = {}
    for name, path in yaml_files(library.path):
        raw, _ = read_bytes(path, name)
        stated = _FAMILY.search(raw) if raw is not None else None
        if stated is not None:
            found.setdefault(stated.group(2).decode("utf-8", "replace"), name)
    return found


def _changed(library: Located, at: WrittenMovement, edits: Sequence[FileEdit]) -> LibraryChange:
    try:
        after = edited_bytes(at.raw, edits)
    except CannotEdit as refusal:
        path = ("movements", at.index)
        raise UserError([at.document.finding(path, "cannot-edit", refusal.message, refusal.hint)]) from None
    return _checked(library, at.name, at.raw, after)


def _checked(library: Located, name: str, before: bytes | None, after: bytes) -> LibraryChange:
    """The change with what checking the library says of it; findings that were there before do not count."""
    templates = known_templates(library.path)
    old = load_library(library.path, library.display)
    said = {_without_line(finding) for finding in [*old.findings, *reach_findings(old, templates)]}
    new = load_library(library.path, library.display, instead={name: after})
    found = in_order([*new.findings, *reach_findings(new, templates)])
    fresh = tuple(finding for finding in found if _without_line(finding) not in said)
    return LibraryChange(library, name, before, after, new, fresh)


def _without_line(finding: Finding) -> tuple[str, str, str]:
    """A finding without its line, which an edit above it moves."""
    return finding.path, finding.code, finding.message


def line_of(change: LibraryChange, movement_id: str) -> int:
    """The line on which the movement begins once the change is written; 0 if it is not there."""
    document = read_document(change.after, change.shown, "")[0]
    ids = _ids(document)
    if document is None or movement_id not in ids:
        return 0
    return document.mark(("movements", ids.index(movement_id))).line
