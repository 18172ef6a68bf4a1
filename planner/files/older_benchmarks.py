"""Benchmarks of an older folder: lines of the platform section that came later are read from the packaged file.

A folder must still give its gap and its block after an upgrade, and a note says what was filled in.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

from pydantic import BaseModel

from planner.domain.findings import Finding
from planner.files.document import Document, Loaded
from planner.files.locate import TEMPLATES, packaged
from planner.files.tree import MappingNode, Node, find
from planner.files.whole_template import marked, merged

SECTION = "platform"
# Lines that are no longer read, by the mapping that held them.
RETIRED = {"search": ("other_stand", "other_within")}
Load = Callable[[Path, str, tuple[str, ...]], Loaded[BaseModel]]


def filled_in(document: Document, load: Load) -> tuple[Document, list[Finding]]:
    """The document with the platform lines it lacks, and a note that names them; itself where it lacks none."""
    from planner.domain.platform_rule import EdgeRule, PlatformRule  # here: only benchmarks need these models

    own = find(document.root, (SECTION,))
    if not isinstance(own, MappingNode) or not isinstance(document.root, MappingNode):
        return document, []
    edges = find(own, ("edges",))
    lacking = [name for name in PlatformRule.model_fields if name not in own.by_key]
    if isinstance(edges, MappingNode):
        lacking += [f"edges.{name}" for name in EdgeRule.model_fields if name not in edges.by_key]
    kept = _without_retired(own)
    if not lacking and kept is own:
        return document, []
    path = packaged(TEMPLATES) / "benchmarks" / "standard.yaml"
    shipped = load(path, path.name, ("benchmarks/1",)).documents[0]
    given = find(shipped.root, (SECTION,))
    assert given is not None
    whole = merged(kept, marked(given, lambda mark: replace(mark, source=1))) if lacking else kept
    entries = [(key, whole if key.text == SECTION else node) for key, node in document.root.entries]
    found = replace(document, root=MappingNode(document.root.mark, entries), others=(shipped,))
    return found, [_note(document, lacking)] if lacking else []


def _without_retired(platform: MappingNode) -> MappingNode:
    entries: list[tuple[object, Node]] = []
    changed = False
    for key, node in platform.entries:
        retired = RETIRED.get(key.text, ())
        if isinstance(node, MappingNode) and any(name in node.by_key for name in retired):
            node, changed = MappingNode(node.mark, [e for e in node.entries if e[0].text not in retired]), True
        entries.append((key, node))
    return MappingNode(platform.mark, entries) if changed else platform  # type: ignore[arg-type]


def _note(document: Document, lacking: list[str]) -> Finding:
    message = (
        f"the file has no lines for {', '.join(lacking)} under {SECTION}; those that come with the planner are used"
    )
    hint = "to change them, copy them from the standard benchmarks of a new folder"
    return document.finding((SECTION,), "packaged-platform", message, hint, on_key=True, level="note")
