"""A template as it is read: what it takes from its limits file, and its lists by role written out week by week.

Every value keeps the line it was written on, whichever of the two files that is in.
"""

from __future__ import annotations

import hashlib
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path

from pydantic import BaseModel

from planner.domain.findings import Finding, UserError
from planner.domain.terms import ROLES
from planner.files.document import Document, Loaded
from planner.files.locate import locate_limits
from planner.files.suggest import did_you_mean
from planner.files.tree import ListNode, MappingNode, Mark, Node, Scalar, find

# Of these a template takes only the entries that it names itself.
TAKEN_BY_NAME = ("levels", "schemes")

# How a file is loaded: handed in, since loading a template asks for its limits.
LoadFile = Callable[[Path, str, tuple[str, ...]], Loaded[BaseModel]]


def whole_template(document: Document, at: Path | None, load: LoadFile) -> tuple[Document, list[Finding]]:
    """The template with the limits it names under its own lines. ``at``: where it is, None for nowhere.

    The digest is then of both files, so that a changed limit is a changed template.
    """
    findings: list[Finding] = []
    if isinstance(document.root, MappingNode) and "limits" in document.root.by_key:
        document, findings = _with_limits(document, at, load)
    if not findings:
        # A copy: the tree as it was parsed is kept, and given to whoever reads these bytes again.
        document = replace(document, root=marked(document.root, lambda mark: mark))
        findings = list(_by_week(document))
    return document, findings


def _with_limits(document: Document, at: Path | None, load: LoadFile) -> tuple[Document, list[Finding]]:
    from planner.domain.template import FileHead  # here, as a command that reads no template loads no model of it

    limits, findings = _read_limits(document, at, load)
    if limits is None or not isinstance(limits.root, MappingNode) or not isinstance(document.root, MappingNode):
        return document, findings
    shared = marked(limits.root, lambda mark: mark._replace(source=1))
    assert isinstance(shared, MappingNode)
    given = MappingNode(
        shared.mark, [(key, node) for key, node in shared.entries if key.text not in FileHead.model_fields]
    )
    digest = hashlib.sha256(f"{document.sha256} {limits.sha256}".encode()).hexdigest()
    whole = replace(document, sha256=digest, others=(limits,))
    own = MappingNode(document.root.mark, [e for e in document.root.entries if e[0].text != "limits"])
    findings = _name_shapes(whole, own, given)
    for name in TAKEN_BY_NAME:
        _keep_named(own, given, name)
    return replace(whole, root=merged(own, given)), findings


def _read_limits(document: Document, at: Path | None, load: LoadFile) -> tuple[Document | None, list[Finding]]:
    name = find(document.root, ("limits",))
    if not isinstance(name, Scalar) or not name.text:
        return None, [document.finding(("limits",), "not-text", "limits: names one file", "write limits: standard")]
    try:
        place = locate_limits(name.text, at)
    except UserError as error:
        return None, [document.finding(("limits",), f.code, f.message, f.hint) for f in error.findings]
    loaded = load(place.path, place.display, ("limits/1",))
    found = list(loaded.findings)
    return (loaded.documents[0] if loaded.documents and not found else None), found


def _name_shapes(document: Document, own: MappingNode, given: MappingNode) -> list[Finding]:
    """A word in the list of shapes is the limits file's shape of that name."""
    shapes, shared = find(own, ("shapes",)), find(given, ("shapes",))
    given.entries = [entry for entry in given.entries if entry[0].text != "shapes"]
    if not isinstance(shapes, ListNode) or not isinstance(shared, ListNode):
        return []
    known = {node.text: shape for shape in shared.items if isinstance(node := find(shape, ("id",)), Scalar)}
    findings = []
    for item in shapes.items:
        if isinstance(item, Scalar) and item.text not in known:
            message = f"'{item.text}' is not a session shape of {document.others[0].path}"
            hint = did_you_mean(item.text, known)
            findings.append(document.finding(item.mark, "unknown-shape", message, hint))
    items = [known.get(item.text, item) if isinstance(item, Scalar) else item for item in shapes.items]
    own.entries = [(k, ListNode(shapes.mark, items) if k.text == "shapes" else node) for k, node in own.entries]
    return findings


def _keep_named(own: MappingNode, given: MappingNode, name: str) -> None:
    named, shared = find(own, (name,)), find(given, (name,))
    if isinstance(shared, MappingNode):
        known = named.by_key if isinstance(named, MappingNode) else {}
        shared.entries = [entry for entry in shared.entries if entry[0].text in known]


def merged(own: Node, given: Node) -> Node:
    """The template's own lines over the shared ones: mappings key by key, all else as a whole."""
    if not isinstance(own, MappingNode) or not isinstance(given, MappingNode):
        return own
    shared = {key.text: node for key, node in given.entries}
    entries = [(key, merged(node, shared[key.text]) if key.text in shared else node) for key, node in own.entries]
    written = {key.text for key, _ in own.entries}
    return MappingNode(own.mark, entries + [entry for entry in given.entries if entry[0].text not in written])


def marked(node: Node, change: Callable[[Mark], Mark]) -> Node:
    if isinstance(node, Scalar):
        return replace(node, mark=change(node.mark))
    if isinstance(node, ListNode):
        return ListNode(change(node.mark), [marked(item, change) for item in node.items])
    entries = [(replace(key, mark=change(key.mark)), marked(value, change)) for key, value in node.entries]
    return MappingNode(change(node.mark), entries)


def _by_week(document: Document) -> Iterator[Finding]:
    """Write out ``weeks`` that are given by role; only where the roles of the block can be read."""
    roles = [role.text for role in _roles(document.root)]
    for table in TAKEN_BY_NAME:
        entries = find(document.root, (table,))
        for key, entry in entries.entries if isinstance(entries, MappingNode) else ():
            weeks = find(entry, ("weeks",))
            if isinstance(entry, MappingNode) and isinstance(weeks, MappingNode):
                yield from _findings_by_role(document, weeks, roles, key.text)
                written_out = ListNode(weeks.mark, list(_in_order(weeks, roles)))
                entry.entries = [(k, written_out if k.text == "weeks" else node) for k, node in entry.entries]
                entry.__dict__.pop("by_key", None)  # which was read before


def _roles(root: Node) -> Iterator[Scalar]:
    weeks = find(root, ("weeks",))
    for week in weeks.items if isinstance(weeks, ListNode) else ():
        role = find(week, ("role",))
        if isinstance(role, Scalar):
            yield role


def _findings_by_role(document: Document, weeks: MappingNode, roles: list[str], name: str) -> Iterator[Finding]:
    for key, _ in weeks.entries:
        if key.text not in ROLES:
            message = f"'{key.text}' is not a role"
            yield document.finding(key.mark, "unknown-role", message, did_you_mean(key.text, ROLES))
    for role in dict.fromkeys(roles):
        given = weeks.by_key.get(role)
        if role in ROLES and (given is None or (isinstance(given[1], ListNode) and not given[1].items)):
            message = f"{name}: the block has a week of role '{role}', but there are no figures for it"
            yield document.finding(weeks.mark, "role-missing", message, f"add a line {role}:")


def _in_order(weeks: MappingNode, roles: list[str]) -> Iterator[Node]:
    """Of each role its first entry for its first week, and so on; the last also for all weeks after it."""
    seen: Counter[str] = Counter()
    for role in roles:
        node = weeks.by_key[role][1] if role in weeks.by_key else None
        entries = node.items if isinstance(node, ListNode) else [node] if node is not None else []
        if entries:
            yield entries[min(seen[role], len(entries) - 1)]
        seen[role] += 1
