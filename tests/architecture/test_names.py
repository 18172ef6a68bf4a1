"""No two public classes and no two files share a name, so that a name says which one is meant."""

from __future__ import annotations

import ast
from collections import defaultdict

from tests.architecture.imports import PACKAGE, modules

# One thing on several floors: what it is, and what is made of it there.
ON_SEVERAL_FLOORS = {"progress_report", "block_before"}
PARTS_OF_A_PDF = {"Chapter"}


def test_no_two_classes_share_a_name() -> None:
    found: dict[str, list[str]] = defaultdict(list)
    for path in modules():
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if isinstance(node, ast.ClassDef) and not node.name.startswith("_"):
                found[node.name].append(path.relative_to(PACKAGE).as_posix())
    twice = {name: paths for name, paths in found.items() if len(paths) > 1}
    assert not twice.keys() - PARTS_OF_A_PDF, f"one of each needs another name: {twice}"


def test_no_two_files_share_a_name_but_commands() -> None:
    """A command is named by what is typed: its work below may have the same name."""
    found: dict[str, list[str]] = defaultdict(list)
    for path in modules():
        if path.stem not in ("__init__", "__main__") and path.parent.name != "cli":
            found[path.stem].append(path.relative_to(PACKAGE).as_posix())
    twice = {name: paths for name, paths in found.items() if len(paths) > 1}
    assert not twice.keys() - ON_SEVERAL_FLOORS, f"one of each needs another name: {twice}"
