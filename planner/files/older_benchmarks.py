"""Benchmarks of an older folder: kinds of test, and lines of the platform section, that came later are read from the
packaged file.

A folder must still give its gap and its block after an upgrade, and notes say what was filled in.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from planner.domain.findings import Finding
from planner.files.document import Document
from planner.files.locate import TEMPLATES, packaged
from planner.files.tree import MappingNode, Node, find
from planner.files.whole_template import LoadFile, marked, merged

PLATFORM, KINDS = "platform", "test_kinds"
# Lines of the platform section that are no longer read, by the mapping that held them.
RETIRED = {"search": ("other_stand", "other_within")}


def filled_in(document: Document, load: LoadFile) -> tuple[Document, list[Finding]]:
    """The document with the kinds of test and the platform lines that it lacks, and notes that name them."""
    own = document.root
    if not isinstance(own, MappingNode):
        return document, []
    entries = [(key, _without_retired(node) if key.text == PLATFORM else node) for key, node in own.entries]
    document = replace(document, root=MappingNode(own.mark, entries))
    notes = {KINDS: list(_lacking_kinds(document)), PLATFORM: list(_lacking_lines(document))}
    if not any(notes.values()):
        return document, []
    path = packaged(TEMPLATES) / "benchmarks" / "standard.yaml"
    shipped = load(path, path.name, ("benchmarks/1",)).documents[0]
    given = marked(shipped.root, lambda mark: mark._replace(source=1))
    entries = [
        (key, _whole(node, find(given, (key.text,)), key.text) if notes.get(key.text) else node)
        for key, node in entries
    ]
    whole = replace(document, root=MappingNode(own.mark, entries), others=(shipped,))
    return whole, [*notes[KINDS], *notes[PLATFORM]]


def _whole(own: Node, given: Node | None, section: str) -> Node:
    """A kind of test is taken as a whole or not at all, since its errors belong together; the platform line by line."""
    assert isinstance(own, MappingNode) and isinstance(given, MappingNode)
    if section == PLATFORM:
        return merged(own, given)
    return MappingNode(own.mark, own.entries + [one for one in given.entries if one[0].text not in own.by_key])


def _lacking_kinds(document: Document) -> Iterator[Finding]:
    from planner.domain.measure import TEST_KINDS  # here, as below: only benchmarks need these models

    own = find(document.root, (KINDS,))
    known = own.by_key if isinstance(own, MappingNode) else TEST_KINDS
    for kind in TEST_KINDS:
        if kind not in known:
            message = f"the file has no entry for the test kind '{kind}'; the entry that comes with the planner is used"
            hint = f"to change it, copy '{kind}' from the standard benchmarks of a new folder"
            yield document.finding((KINDS,), "packaged-test-kind", message, hint, on_key=True, level="note")


def _lacking_lines(document: Document) -> Iterator[Finding]:
    from planner.domain.platform_rule import EdgeRule, PlatformRule

    own, edges = find(document.root, (PLATFORM,)), find(document.root, (PLATFORM, "edges"))
    if not isinstance(own, MappingNode):
        return
    lacking = [name for name in PlatformRule.model_fields if name not in own.by_key]
    if isinstance(edges, MappingNode):
        lacking += [f"edges.{name}" for name in EdgeRule.model_fields if name not in edges.by_key]
    if lacking:
        names = ", ".join(lacking)
        message = f"the file has no lines for {names} under {PLATFORM}; those that come with the planner are used"
        hint = "to change them, copy them from the standard benchmarks of a new folder"
        yield document.finding((PLATFORM,), "packaged-platform", message, hint, on_key=True, level="note")


def _without_retired(platform: Node) -> Node:
    if not isinstance(platform, MappingNode):
        return platform
    entries = [
        (key, MappingNode(node.mark, [one for one in node.entries if one[0].text not in RETIRED[key.text]]))
        if key.text in RETIRED and isinstance(node, MappingNode)
        else (key, node)
        for key, node in platform.entries
    ]
    return MappingNode(platform.mark, entries)
