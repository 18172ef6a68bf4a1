"""No two public classes share a name, so that a name says which one is meant."""

from __future__ import annotations

import ast
from collections import defaultdict

from tests.architecture.imports import PACKAGE, modules


def test_no_two_classes_share_a_name() -> None:
    found: dict[str, list[str]] = defaultdict(list)
    for path in modules():
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if isinstance(node, ast.ClassDef) and not node.name.startswith("_"):
                found[node.name].append(path.relative_to(PACKAGE).as_posix())
    twice = {name: paths for name, paths in found.items() if len(paths) > 1}
    assert not twice, f"one of each needs another name: {twice}"
