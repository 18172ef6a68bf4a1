"""One athlete of a squad: the block as ``plan`` makes it, written, and what a table says of it."""

from __future__ import annotations

import datetime
import hashlib
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

import planner
from planner.domain.block import Block
from planner.domain.findings import Finding, UserError
from planner.domain.gap_record import Gap
from planner.files.digest import file_sha256
from planner.files.locate import locate_follow_up
from planner.files.render import format_finding, in_order
from planner.jobs.check_log import log_path
from planner.jobs.safe_output import block_output
from planner.jobs.sources import Sources, Wanted, read_sources
from planner.rules.registry import all_rules, rules_version

MOST_WHY = 3  # findings of a refusal that are kept in the table; plan shows them all


@dataclass(frozen=True)
class PlanTask:
    """``block``: the file to write; ``after``: the block that it follows. The rest is as the options of ``plan``."""

    athlete: str
    block: str
    template: str | None = None
    start: datetime.date | None = None
    budget: float | None = None
    library: str | None = None
    templates: str | None = None
    force: bool = False
    after: str | None = None


@dataclass(frozen=True)
class Planned:
    """What came of a task. ``why``: the refusal in lines; () for a block. ``sha256``: of the block's file."""

    name: str
    why: tuple[str, ...] = ()
    sha256: str = ""
    figures: dict[str, Any] = field(default_factory=dict)
    lasting: bool = True  # whether the same files would give the same again


def sources_of(task: PlanTask) -> Sources:
    """Raises UserError with the findings of the files."""
    wanted = Wanted(task.athlete, task.template, task.library, task.templates)
    sources = read_sources(wanted, rule_ids=[rule.id for rule in all_rules()])
    sources.require()
    return sources


def inputs_digest(task: PlanTask, sources: Sources) -> str:
    """Of everything that the block depends on: where it is the same, the block would be the same."""
    digests = [one.sha256 for one in (sources.athlete, sources.library)]
    digests += [one.sha256 for one in (sources.template, sources.benchmarks)]
    said = [*digests, planner.__version__, rules_version(), str(task.start), str(task.budget)]
    if task.after is not None:
        said += [file_sha256(one) for one in (task.after, log_path(task.after), locate_follow_up(task.after).path)]
    return hashlib.sha256("\n".join(said).encode()).hexdigest()


def plan_one(task: PlanTask) -> Planned:
    """Plan and write. A refusal is a result; the file that is there then stays."""
    from planner.files.dump import block_to_yaml

    try:
        output = block_output(task.block, force=task.force)
    except UserError as refusal:  # a block edited by hand may be moved away
        return replace(refused(task, refusal.findings), lasting=False)
    try:
        block = _planned(task, sources_of(task), Path(task.block).parent)
    except UserError as refusal:
        return refused(task, refusal.findings)
    raw = block_to_yaml(block).encode("utf-8")
    try:
        output.write(raw)
    except UserError as refusal:
        return replace(refused(task, refusal.findings), lasting=False)
    return Planned(block.for_athlete.name, (), hashlib.sha256(raw).hexdigest(), figures_of(block))


def _planned(task: PlanTask, sources: Sources, folder: Path) -> Block:
    from planner.jobs.plan_block import plan_block

    start, before = task.start, None
    if task.after is not None:
        from planner.jobs.take_over import next_block

        follows = next_block(task.after, sources, folder, task.start)
        start, before = follows.start, follows.before
    return plan_block(sources, folder, start=start, before=before, budget=task.budget)


def refused(task: PlanTask, findings: list[Finding]) -> Planned:
    """What is in the way, the first findings of it."""
    errors = [one for one in in_order(findings) if one.level == "error"]
    lines = [format_finding(one).splitlines()[0] for one in errors[:MOST_WHY]]
    more = len(errors) - MOST_WHY
    return Planned(Path(task.athlete).stem, (*lines, *([f"and {more} more findings"] if more > 0 else [])))


def figures_of(block: Block) -> dict[str, Any]:
    """What the table says of a block: gap in newtons with its error, qualities short, proof, what is missed."""
    gap = block.gap
    return {
        "gap_N": round(gap.gap.mean_ground_force_N),
        "gap_N_se": round(gap.gap.mean_ground_force_N_se),
        "gap_cm": round(100 * gap.gap.rise_m),
        "short_percent": short_of(gap),
        "proved": block.proof.status == "optimal",
        "missed": [one.sentence for one in block.shortfalls],
    }


def short_of(gap: Gap) -> dict[str, int]:
    """Qualities short enough to act on, in percent, the least first; of two legs the weaker."""
    acted_on = sorted((one for one in gap.qualities if one.counts and one.emphasis > 1), key=lambda one: one.deficit)
    return {one.quality: round(100 * one.deficit) for one in acted_on if one.deficit > 0}
