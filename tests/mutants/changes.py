"""Small changes of meaning to a source file, one at a time, found on its syntax tree."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

COMPARISONS = {
    ast.Lt: ast.LtE,
    ast.LtE: ast.Lt,
    ast.Gt: ast.GtE,
    ast.GtE: ast.Gt,
    ast.Eq: ast.NotEq,
    ast.NotEq: ast.Eq,
    ast.In: ast.NotIn,
    ast.NotIn: ast.In,
    ast.Is: ast.IsNot,
    ast.IsNot: ast.Is,
}
ARITHMETIC = {
    ast.Add: ast.Sub,
    ast.Sub: ast.Add,
    ast.Mult: ast.Div,
    ast.Div: ast.Mult,
    ast.FloorDiv: ast.Mult,
    ast.Mod: ast.Mult,
}
FUNCTIONS = {"min": "max", "max": "min", "any": "all", "all": "any"}


@dataclass(frozen=True)
class Mutant:
    """``place`` counts the changes of one file in the order of its tree; ``was`` and ``now`` are source text.

    ``text`` is the whole line; ``function`` the first line, decorators included, of the outermost function around it;
    ``lines`` the first and last line of the statement around it, without what is under that statement.
    """

    path: str
    line: int
    function: int
    lines: tuple[int, int]
    place: int
    text: str
    was: str
    now: str

    @property
    def name(self) -> str:
        return f"{self.path}:{self.line}  {self.was}  ->  {self.now}"


def mutants_of(path: str, root: Path) -> list[Mutant]:
    source = (root / path).read_text("utf-8")
    tree, lines = ast.parse(source), source.splitlines()
    return [
        Mutant(path, node.lineno, where[0], where[1:], place, lines[node.lineno - 1].strip(), _short(node), _short(new))
        for place, (node, new, where) in enumerate(_changes(tree))
    ]


def mutated(mutant: Mutant, root: Path) -> ast.Module:
    """The file's tree with that one change made."""
    tree = ast.parse((root / mutant.path).read_text("utf-8"))
    old, new, _ = next(found for place, found in enumerate(_changes(tree)) if place == mutant.place)
    return ast.fix_missing_locations(_Swap(old, new).visit(tree))


class _Swap(ast.NodeTransformer):
    def __init__(self, old: ast.AST, new: ast.AST) -> None:
        self.old, self.new = old, new

    def visit(self, node: ast.AST) -> ast.AST:
        return ast.copy_location(self.new, node) if node is self.old else self.generic_visit(node)


Where = tuple[int, int, int]  # the function's first line, the statement's first and last


def _changes(tree: ast.Module) -> Iterator[tuple[ast.expr | ast.stmt, ast.expr | ast.stmt, Where]]:
    for node, where in _in_functions(tree):
        for changed in _of(node):
            yield node, changed, where


def _in_functions(node: ast.AST, function: int = 0, lines: tuple[int, int] = (0, 0)) -> Iterator[tuple[Any, Where]]:
    """What functions do, in order: annotations, decorators, defaults and constants of modules are left alone."""
    if not function and isinstance(node, ast.FunctionDef):
        function = min(part.lineno for part in (node, *node.decorator_list))
    elif not function and isinstance(node, ast.Lambda):
        function = node.lineno
    if isinstance(node, ast.keyword) and node.arg == "strict":  # of zip: guards against what cannot happen
        return
    for name, value in ast.iter_fields(node):
        if name in ("annotation", "returns", "decorator_list", "defaults", "kw_defaults"):
            continue
        for child in value if isinstance(value, list) else [value]:
            around = _own_lines(child) if isinstance(child, ast.stmt) else lines
            if isinstance(child, ast.expr | ast.stmt) and function:
                yield child, (function, *around)
            if isinstance(child, ast.AST):
                yield from _in_functions(child, function, around)


def _own_lines(statement: ast.stmt) -> tuple[int, int]:
    body = getattr(statement, "body", None)
    last = max(statement.lineno, body[0].lineno - 1) if body else statement.end_lineno
    return statement.lineno, last or statement.lineno


def _of(node: ast.expr | ast.stmt) -> Iterator[ast.expr | ast.stmt]:
    match node:
        case ast.Compare(left=left, ops=[op], comparators=right) if type(op) in COMPARISONS:
            yield ast.Compare(left, [COMPARISONS[type(op)]()], right)
        case ast.Compare(left=left, ops=[first, second], comparators=right):
            for ops in ([_other(first), second], [first, _other(second)]):
                yield ast.Compare(left, ops, right)
        case ast.BinOp(left=left, op=op, right=right) if type(op) in ARITHMETIC and not _is_text(left, right):
            yield ast.BinOp(left, ARITHMETIC[type(op)](), right)
        case ast.BoolOp(op=op, values=values):
            yield ast.BoolOp(ast.Or() if isinstance(op, ast.And) else ast.And(), values)
        case ast.UnaryOp(op=ast.Not() | ast.USub(), operand=operand):
            yield operand
        case ast.Constant(value=bool() as value):
            yield ast.Constant(not value)
        case ast.Constant(value=int() | float() as value):
            yield ast.Constant(value + 1)
            if isinstance(value, int) and value > 0:
                yield ast.Constant(value - 1)
        case ast.Call(func=ast.Name(id=name), args=args, keywords=keywords) if name in FUNCTIONS:
            yield ast.Call(ast.Name(FUNCTIONS[name], ast.Load()), args, keywords)
        case ast.IfExp(test=test, body=body, orelse=orelse):
            yield ast.IfExp(test, orelse, body)
        case ast.If(test=test, body=body, orelse=orelse):
            yield ast.If(ast.UnaryOp(ast.Not(), test), body, orelse)
        case ast.Expr(value=ast.YieldFrom(value=ast.Tuple(elts=[]))):
            return  # yields nothing already
        case ast.Expr(value=ast.Yield() | ast.YieldFrom() | ast.Call()) | ast.AugAssign():
            yield (
                ast.Expr(ast.Constant(None))
                if not _only_yield(node)
                else ast.Expr(ast.YieldFrom(ast.Tuple([], ast.Load())))
            )
        case ast.Return(value=value) if value is not None and not _is_none(value):
            yield ast.Return(ast.Constant(None))


def _other(op: ast.cmpop) -> ast.cmpop:
    return COMPARISONS[type(op)]()


def _only_yield(node: ast.AST) -> bool:
    """A yield gives way to one of nothing, so that its function stays a generator."""
    return isinstance(node, ast.Expr) and isinstance(node.value, ast.Yield | ast.YieldFrom)


def _is_text(*nodes: ast.AST) -> bool:
    return any(
        isinstance(node, ast.JoinedStr) or (isinstance(node, ast.Constant) and isinstance(node.value, str))
        for node in nodes
    )


def _is_none(node: ast.AST) -> bool:
    return isinstance(node, ast.Constant) and node.value is None


def _short(node: ast.AST) -> str:
    text = " ".join(ast.unparse(ast.fix_missing_locations(node)).split())
    return text if len(text) <= 90 else text[:87] + "..."
