"""A log on disk: entries added or replaced, every other line kept as it is; or a new file."""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from pathlib import Path
from typing import Any, cast

from planner.domain.block import Block
from planner.domain.findings import Finding, UserError
from planner.domain.training_log import LoggedBlock, LoggedItem, LoggedPain, LoggedSession, TrainingLog
from planner.files.atomic import write_atomically
from planner.files.digest import plan_digest, sha256_of
from planner.files.document import Loaded
from planner.files.dump import plain_to_yaml
from planner.files.edit import edited_bytes
from planner.files.edit_spans import is_flow, line_end_of
from planner.files.edit_steps import CannotEdit, FileEdit, Insert, Put, Remove
from planner.files.edit_values import entry_lines
from planner.files.load import load_bytes, read_bytes, then
from planner.files.log_references import log_references
from planner.files.sense.log_sense import log_sense
from planner.files.text import diff_of
from planner.files.tree import ListNode, find
from planner.files.typed_sets import load_text, touch_text
from planner.files.values import Data
from planner.files.written_paths import written_path


class LogFile:
    """The log of a block. Read before the work is done, so that later changes are seen; it need not be there yet."""

    def __init__(self, path: Path, display: str, block_path: Path, block: Block) -> None:
        self.path, self.display, self._block = path, display, block
        self._units = (block.for_athlete.mass_unit, block.for_athlete.length_unit)
        self._before: bytes | None = None
        self._after = self._empty = _empty(path, block_path, block)
        self.findings: tuple[Finding, ...] = ()
        if path.exists():
            raw, problems = read_bytes(path, display)
            if raw is None:
                raise UserError(problems)
            self._before = self._after = raw
        self.log = self._checked(self._after)

    @property
    def is_new(self) -> bool:
        return self._before is None

    @property
    def is_changed(self) -> bool:
        """Whether there is anything to write; a log without entries is not."""
        return self._after != (self._before or self._empty)

    def put(self, entry: LoggedSession) -> None:
        """Add the entry where its day belongs, or replace the one of its session. UserError where it does not fit."""
        data = entry_data(entry, *self._units)
        there = [one.session for one in self.log.sessions]
        others = [one for one in self.log.sessions if one.session != entry.session]
        day = self._day(entry)
        index = sum(self._day(one) <= day for one in others)
        edits: list[FileEdit] = []
        if entry.session in there and there.index(entry.session) == index:
            edits.append(Put(("sessions", index), cast(Data, data), tuple(data)))
        elif entry.session in there:
            edits += [Remove(("sessions", there.index(entry.session))), Insert(("sessions",), index, data)]
        elif others:
            edits.append(Insert(("sessions",), index, data))
        raw = self._edited(edits) if edits else self._first(data)
        if self.log.block.plan_sha256 != plan_digest(self._block):
            digest = Put(("block", "plan_sha256"), plan_digest(self._block))
            raw = edited_bytes(raw, [digest])
        self._after, self.log = raw, self._checked(raw)

    def diff(self) -> str:
        return diff_of(self._before, self._after, self.display)

    def write(self) -> None:
        """Write the file whole, unless it was changed meanwhile."""
        write_atomically(self.path, self._after, sha256_of(self._before))

    def _edited(self, edits: list[FileEdit]) -> bytes:
        try:
            return edited_bytes(self._after, edits)
        except CannotEdit as refusal:
            message = f"the entry cannot be written there: {refusal.message}"
            raise UserError([Finding(self.display, 0, 0, "cannot-edit", message, refusal.hint)]) from None

    def _first(self, data: Mapping[str, Data]) -> bytes:
        """The first entry of a log: its list begins at the end of the file."""
        raw = self._after
        if self._written_list() is not None:
            raw = self._edited([Remove(("sessions",))])
        end = line_end_of(raw.decode("utf-8"))
        text = raw.decode("utf-8").rstrip() + end
        return f"{text}sessions:{end}{entry_lines(data, 2, 4, end)}{end}".encode()

    def _written_list(self) -> ListNode | None:
        loaded = load_bytes(self._after, self.display, ("log/1",))
        node = find(loaded.documents[0].root, ("sessions",)) if loaded.documents else None
        return node if isinstance(node, ListNode) and is_flow(node, loaded.documents[0].text) else None

    def _day(self, entry: LoggedSession) -> datetime.date:
        planned = (s.date for s in self._block.sessions if s.id == entry.session)
        return entry.date or next(planned, datetime.date.max)

    def _checked(self, raw: bytes) -> TrainingLog:
        loaded = cast("Loaded[TrainingLog]", load_bytes(raw, self.display, ("log/1",)))
        loaded = then(then(loaded, log_sense), lambda one: log_references(one, self._block))
        log = loaded.require()
        self.findings = loaded.findings
        return log


def _empty(path: Path, block_path: Path, block: Block) -> bytes:
    """A log without an entry yet, which points to the block by a path from its own folder."""
    head = LoggedBlock(path=written_path(block_path, path.parent), plan_sha256=plan_digest(block))
    return plain_to_yaml({"file": "log/1", "block": head.model_dump()}).encode()


def entry_data(entry: LoggedSession, mass_unit: str, length_unit: str) -> dict[str, Data]:
    """The entry as its file has it: quantities with units, and only what differs from the default."""
    data = _not_default(entry)
    if entry.items:
        data["items"] = [_item_data(item, mass_unit, length_unit) for item in entry.items]
    if entry.pain:
        data["pain"] = [_not_default(pain) for pain in entry.pain]
    if entry.body_mass is not None:
        data["body_mass"] = load_text(entry.body_mass, mass_unit)
    return data


def _item_data(item: LoggedItem, mass_unit: str, length_unit: str) -> dict[str, Data]:
    data = _not_default(item)
    if item.load is not None:
        data["load"] = load_text(item.load, mass_unit)
    if item.loads:
        data["loads"] = [load_text(load, mass_unit) for load in item.loads]
    if item.touches:
        data["touches"] = [touch_text(touch, length_unit) for touch in item.touches]
    return data


def _not_default(model: LoggedSession | LoggedItem | LoggedPain) -> dict[str, Any]:
    """The fields that differ from their default, in the model's order."""
    fields = ((name, getattr(model, name), field.default) for name, field in type(model).model_fields.items())
    given = {name: value for name, value, default in fields if value != default}
    return {name: list(value) if isinstance(value, tuple) else value for name, value in given.items()}
