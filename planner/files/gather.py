"""Several library files become one library. An id in a second place is a finding; of a broken file the entries that can
be read count, so that names are checked too."""

from __future__ import annotations

import re
from collections.abc import Iterator

from pydantic import BaseModel, ValidationError

from planner.domain.findings import Finding
from planner.domain.library_review import LibraryReview
from planner.domain.movement import EquipmentFile, EquipmentKind, Movement, MovementFile
from planner.domain.movement_library import Library
from planner.files.document import Document, Loaded
from planner.files.tree import ListNode, Path, Scalar, find
from planner.files.values import to_data

REVIEW = "review:"  # the first step of a path into a library's review file; no movement's id has a colon
_STATED_ID = re.compile(rb"\bid:[ ]*[\"']?([a-z0-9-]+)")
# The list of a file by its kind, and the model of an entry.
_ENTRIES: dict[str, tuple[str, type[Movement] | type[EquipmentKind]]] = {
    "movements/1": ("movements", Movement),
    "equipment/1": ("equipment", EquipmentKind),
}


class Gathered:
    """What the files hold together. ``stated``: ids written in files that have findings.

    ``blind``: a file could not be read at all, so a name that is missing may be in it.
    """

    def __init__(self) -> None:
        self.movements: dict[str, Movement] = {}
        self.families: dict[str, str] = {}
        self.equipment: dict[str, str] = {}
        self.places: dict[str, str] = {}
        self.roots: dict[str, tuple[Document, Path]] = {}
        self.findings: list[Finding] = []
        self.review: LibraryReview | None = None
        self.stated: set[str] = set()
        self.blind = False

    def add(self, loaded: Loaded[BaseModel], raw: bytes) -> None:
        value = loaded.value
        if isinstance(value, MovementFile):
            for index, movement in enumerate(value.movements):
                self._take(loaded, movement, value.family, index)
        elif isinstance(value, EquipmentFile):
            for index, thing in enumerate(value.equipment):
                self._take(loaded, thing, "", index)
        elif isinstance(value, LibraryReview):
            self._take_review(value, loaded)
        else:
            self._add_broken(loaded, raw)

    def library(self) -> Library:
        movements = {name: self.movements[name] for name in sorted(self.movements)}
        families = {name: self.families[name] for name in movements}
        equipment, places = dict(sorted(self.equipment.items())), dict(sorted(self.places.items()))
        return Library(movements, families, equipment, places, self.review)

    def _add_broken(self, loaded: Loaded[BaseModel], raw: bytes) -> None:
        stated = {found.decode("ascii") for found in _STATED_ID.findall(raw)}
        self.stated |= stated
        self.blind = self.blind or not (stated or loaded.documents)
        for document in loaded.documents:
            for index, family, entry in _whole_entries(document):
                self._take(loaded, entry, family, index)

    def _take(self, loaded: Loaded[BaseModel], entry: Movement | EquipmentKind, family: str, index: int) -> None:
        if isinstance(entry, Movement):
            if self._is_first(loaded, "movement", entry.id, ("movements", index)):
                self.movements[entry.id] = entry
                self.families[entry.id] = family
        elif self._is_first(loaded, "equipment", entry.id, ("equipment", index)):
            self.equipment[entry.id] = entry.name

    def _is_first(self, loaded: Loaded[BaseModel], what: str, name: str, path: Path) -> bool:
        key = name if what == "movement" else f"equipment:{name}"
        if key in self.places:
            message = f"the {what} '{name}' is written twice, first at {self.places[key]}"
            hint = "rename or delete one of them"
            self.findings.append(loaded.finding((*path, "id"), "duplicate-id", message, hint, other=self.places[key]))
            return False
        self.places[key] = str(loaded.place((*path, "id")))
        self.roots[key] = (loaded.documents[0], path)
        return True

    def _take_review(self, review: LibraryReview, loaded: Loaded[BaseModel]) -> None:
        if self.review is not None:
            place = self.roots[REVIEW][0].path
            message = f"the library has a second review file; the first is {place}"
            hint = "keep one of the two files"
            self.findings.append(loaded.finding(("file",), "second-review", message, hint, other=f"{place}:1"))
            return
        self.review = review
        self.roots[REVIEW] = (loaded.documents[0], ())


def _whole_entries(document: Document) -> Iterator[tuple[int, str, Movement | EquipmentKind]]:
    """(index, family, entry) for each entry without a finding of its own, in a file that has some."""
    kind, family = (_text(document, name) for name in ("file", "family"))
    if kind not in _ENTRIES:
        return
    field, model = _ENTRIES[kind]
    entries = find(document.root, (field,))
    for index, node in enumerate(entries.items if isinstance(entries, ListNode) else ()):
        data, odd = to_data(node)
        if odd:
            continue
        try:
            yield index, family, model.model_validate(data)
        except ValidationError:
            continue  # reported already: the whole file was validated before


def _text(document: Document, field: str) -> str:
    found = find(document.root, (field,))
    return found.text if isinstance(found, Scalar) else ""
