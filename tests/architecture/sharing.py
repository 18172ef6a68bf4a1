"""What a rule's rows and its audit both use, read from the source: functions of ours, and what the Problem knows."""

from __future__ import annotations

import ast
import dataclasses
import importlib
import inspect
import textwrap
from collections.abc import Iterator
from types import FunctionType
from typing import Any

from planner.problem.model import Problem
from planner.rules.rule import Rule

# Inputs as the coach wrote them, and names of variables: nothing is counted in them.
INPUTS = {"athlete", "library", "template"}
KNOWN_TO_THE_PROBLEM = {name for name in dir(Problem) if not name.startswith("_")} | {
    field.name for field in dataclasses.fields(Problem)
}


def shared(rule: Rule) -> set[str]:
    """Names that both the rows and the audit of the rule reach, ``module.function`` or ``Problem.attribute``."""
    return _reached(type(rule), "rows") & _reached(type(rule), "audit")


def _reached(rule: type[Rule], start: str) -> set[str]:
    found: set[str] = set()
    todo: list[Any] = [(rule, start)]
    seen: set[Any] = set()
    while todo:
        one = todo.pop()
        if one in seen:
            continue
        seen.add(one)
        function = _method(*one) if isinstance(one, tuple) else one
        if function is None:
            continue
        for name, more in _uses(function, rule):
            if name:
                found.add(name)
            if more is not None:
                todo.append(more)
    return found


def _method(rule: type[Rule], name: str) -> FunctionType | None:
    owner = next((one for one in rule.__mro__ if name in vars(one)), None)
    found = vars(owner)[name] if owner else None
    plain = getattr(found, "__func__", found)  # a static method's function
    return plain if inspect.isfunction(plain) else None


def _uses(function: FunctionType, rule: type[Rule]) -> Iterator[tuple[str | None, Any]]:
    known = vars(importlib.import_module(function.__module__))
    for node in ast.walk(ast.parse(textwrap.dedent(inspect.getsource(function)))):
        if isinstance(node, ast.Name) and inspect.isfunction(known.get(node.id)):
            used = known[node.id]
            if used.__module__.startswith("planner."):
                yield f"{used.__module__.rsplit('.', 1)[1]}.{used.__name__}", used
        if isinstance(node, ast.Attribute):
            owner = ast.unparse(node.value)
            if owner == "self":
                yield None, (rule, node.attr)
            elif owner.endswith("problem") and node.attr in KNOWN_TO_THE_PROBLEM - INPUTS:
                yield f"Problem.{node.attr}", None
