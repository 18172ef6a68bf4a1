"""The figures of a single rule: its section under ``rules:`` in a template or a limits file, by the rule's id.

The section's model is in the rule's own file. Floors below know that there are such sections, and nothing of what is
in them; ``load_template`` and ``own_limits_findings`` hold them to their models.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any, ClassVar, Self

from pydantic import Field, create_model

from planner.domain.base import Model
from planner.domain.findings import Finding
from planner.domain.template import Template
from planner.files import load
from planner.files.document import Loaded
from planner.files.shape import validate
from planner.files.tree import MappingNode
from planner.rules.registry import classes, rule_named


class OwnLimits(Model):
    """What a template says for one rule."""

    rule: ClassVar[str]  # its id

    @classmethod
    def of(cls, template: Template) -> Self | None:
        """None where the template has no such section; then the rule asks nothing."""
        given = template.rules.get(cls.rule)
        return None if given is None else cls.model_validate(given)


@cache
def own_limits() -> type[Model]:
    """A model of all these sections."""
    fields: dict[str, Any] = {
        kind.rule.replace("-", "_"): (
            kind | None,
            Field(default=None, alias=kind.rule, description=f"{rule_named(kind.rule).title}."),
        )
        for kind in classes(OwnLimits)
    }
    return create_model("OwnLimits", __base__=Model, **fields)


def load_template(path: str | Path, display: str | None = None) -> Loaded[Template]:
    """A template: shape, sense, then the sections of single rules."""
    return load.then(load.load_template(path, display), own_limits_findings)


def own_limits_findings(loaded: Loaded[Any]) -> list[Finding]:
    """What is wrong in the sections of single rules, of a template or a limits file."""
    document = loaded.documents[0]
    if not isinstance(document.root, MappingNode) or "rules" not in document.root.by_key:
        return []
    rules = MappingNode(document.root.mark, [document.root.by_key["rules"]])
    return validate(create_model("File", rules=(own_limits(), ...)), replace(document, root=rules))[1]
