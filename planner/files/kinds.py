"""The first line of every file says what it is: ``file: athlete/1``. This table says which model reads it."""

from __future__ import annotations

import importlib

from pydantic import BaseModel

from planner.domain.findings import Finding
from planner.files.document import Document
from planner.files.suggest import nearest
from planner.files.tree import MappingNode, Scalar

# Named, not imported: a command that reads an athlete does not load the models of cards.
MODELS: dict[str, tuple[str, str]] = {
    "athlete/1": ("planner.domain.athlete", "Athlete"),
    "movements/1": ("planner.domain.movement", "MovementFile"),
    "equipment/1": ("planner.domain.movement", "EquipmentFile"),
    "library-review/1": ("planner.domain.library_review", "LibraryReview"),
    "template/1": ("planner.domain.template", "Template"),
    "limits/1": ("planner.domain.limits", "Limits"),
    "benchmarks/1": ("planner.domain.benchmarks", "Benchmarks"),
    "card-layout/1": ("planner.domain.card_layout", "CardLayout"),
    "follow-up/1": ("planner.domain.follow_up", "FollowUp"),
    "usual-gyms/1": ("planner.domain.usual_gyms", "UsualGyms"),
    "test-sheet/1": ("planner.domain.test_sheet", "TestSheet"),
    "squad/1": ("planner.domain.training_squad", "Squad"),
    "squad-rules/1": ("planner.domain.squad_rules", "SquadRules"),
    "block/1": ("planner.domain.block", "Block"),
    "log/1": ("planner.domain.training_log", "TrainingLog"),
}
# What a library's folder holds.
LIBRARY_KINDS = ("movements/1", "equipment/1", "library-review/1")
_ALL = ", ".join(MODELS)


def model_of(kind: str) -> type[BaseModel]:
    """The model that reads files of this kind and version, such as ``athlete/1``. KeyError for an unknown one."""
    module, name = MODELS[kind]
    found: type[BaseModel] = getattr(importlib.import_module(module), name)
    return found


def file_kind(document: Document, expected: tuple[str, ...] = ()) -> tuple[str | None, list[Finding]]:
    """The kind and version a file states, or the finding on what is wrong with its first line.

    ``expected``: the kinds allowed here; another known one is a finding too.
    """
    root = document.root
    example = expected[0] if len(expected) == 1 else "athlete/1"
    if not isinstance(root, MappingNode) or not root.entries:
        hint = f"its first line says what it is, such as file: {example}"
        return None, [document.finding((), "no-file-kind", "the file has no fields", hint)]
    first = root.entries[0][0]
    if "file" not in root.by_key:
        line = f"file: {example}" if len(expected) == 1 else f"'file: ' and one of {_ALL}"
        message = "the first line does not say what the file is"
        return None, [document.finding(first.mark, "no-file-kind", message, f"write {line} as the first line")]
    key, value = root.by_key["file"]
    if first is not key:
        message = "'file' is not the first field"
        return None, [document.finding(key.mark, "file-kind-not-first", message, "move this line to the top")]
    written = value.text if isinstance(value, Scalar) else ""
    if written not in MODELS:
        return None, [_unknown(document, written, expected)]
    if expected and written not in expected:
        message = f"expected file: {' or '.join(expected)}, found file: {written}"
        return None, [document.finding(("file",), "wrong-file-kind", message, "name another file, or change this line")]
    return written, []


def _unknown(document: Document, written: str, expected: tuple[str, ...]) -> Finding:
    name, _, version = written.partition("/")
    versions = [kind for kind in MODELS if kind.partition("/")[0] == name]
    if versions:
        message = f"version '{version}' of {name} is not known" if version else f"'{written}' has no version"
        return document.finding(("file",), "unknown-file-version", message, f"write {' or '.join(versions)}")
    best = nearest(written, expected or MODELS) or nearest(name, {kind.partition("/")[0] for kind in MODELS})
    best = next((kind for kind in MODELS if best and kind.startswith(best)), None)
    hint = f"did you mean '{best}'?" if best else f"use one of: {_ALL}"
    return document.finding(("file",), "unknown-file-kind", f"'{written}' is not a kind of file", hint)
