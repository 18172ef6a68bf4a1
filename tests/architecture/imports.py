"""What every module of the package imports, read from its text: nothing is executed."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path

CHECKOUT = Path(__file__).parents[2]
PACKAGE = CHECKOUT / "planner"


@dataclass(frozen=True)
class Import:
    """``module`` (a file of ours, as a dotted name) imports ``name``; only_types: for type checkers alone."""

    module: str
    name: str
    line: int
    only_types: bool

    def __str__(self) -> str:
        return f"{self.module}:{self.line} imports {self.name}"


def modules() -> list[Path]:
    return sorted(PACKAGE.rglob("*.py"))


def dotted(path: Path) -> str:
    return ".".join(path.relative_to(CHECKOUT).with_suffix("").parts).removesuffix(".__init__")


def imports_of(path: Path) -> Iterator[Import]:
    tree = ast.parse(path.read_text("utf-8"))
    for_types = {
        id(inner)
        for node in ast.walk(tree)
        if isinstance(node, ast.If) and "TYPE_CHECKING" in ast.unparse(node.test)
        for inner in ast.walk(node)
    }
    for node in ast.walk(tree):
        names: list[str] = []
        if isinstance(node, ast.Import):
            names = [alias.name for alias in node.names]
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{dotted(path)}: relative imports hide the arrow"
            names = [node.module or ""]
            if node.module == "planner":
                names = [f"planner.{alias.name}" for alias in node.names]
        yield from (Import(dotted(path), name, node.lineno, id(node) in for_types) for name in names)


@cache
def all_imports() -> list[Import]:
    return [found for path in modules() for found in imports_of(path)]


def floor_of(name: str) -> str:
    """``planner.rules.growth`` -> ``rules``; the package itself and ``__main__`` stand at the door: ``cli``."""
    parts = name.split(".")
    return parts[1] if len(parts) > 1 and parts[1] != "__main__" else "cli"
