"""``jumpblock plan``: an athlete's file becomes a block."""

from __future__ import annotations

import datetime
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import click

from planner.cli.output import Command, Progress, note, result, show_findings

if TYPE_CHECKING:
    from planner.cli.inputs import Sources
    from planner.domain.athlete import Athlete
    from planner.domain.block import Block
    from planner.domain.findings import Finding
    from planner.problem.model import Problem
    from planner.solve.athlete_lines import Rebuild
    from planner.solve.block import References
    from planner.solve.stages import NoBlock, Solution


@click.command("plan", cls=Command)
@click.argument("athlete", type=click.Path())
@click.option("--template", metavar="NAME", help="Template by name or path [default: the athlete's, else eight-week].")
@click.option(
    "--start",
    type=click.DateTime(["%Y-%m-%d"]),
    help="First day of the block [default: the first training day after the latest test].",
)
@click.option("--near", metavar="BLOCK", type=click.Path(), help="Change as little as possible from this block.")
@click.option("--budget", type=click.FloatRange(min=0, min_open=True), help="Deterministic seconds for the solver.")
@click.option("-o", "--output", metavar="BLOCK.yaml", type=click.Path(), help="File to write [default: stdout].")
@click.option("--force", is_flag=True, help="Replace a block that was edited by hand.")
@click.option("--json", "as_json", is_flag=True, help="Print the block as JSON, also where -o writes a file.")
@click.option("--library", type=click.Path(), help="Folder of movements [default: near ATHLETE, else the shipped one].")
@click.option("--templates", type=click.Path(), help="Folder of templates and benchmarks [default: likewise].")
def command(
    athlete: str,
    template: str | None,
    start: datetime.datetime | None,
    near: str | None,
    budget: float | None,
    output: str | None,
    force: bool,
    as_json: bool,
    library: str | None,
    templates: str | None,
) -> None:
    """Plan a block for the athlete's file ATHLETE.

    Every hard rule holds in it, and the solver proves how near a block can come to what the template aims at. The same
    files give the same block, byte for byte.
    """
    from planner.cli.inputs import Wanted, read_sources
    from planner.cli.writing import STDOUT, block_output
    from planner.rules.registry import all_rules

    file = None if output in (None, STDOUT) else block_output(str(output), force=force)
    sources = read_sources(Wanted(athlete, template, library, templates), rule_ids=[rule.id for rule in all_rules()])
    old = _read_near(near) if near else None
    block = _make(sources, start.date() if start else None, old, budget, Path(output or STDOUT).parent)
    if file is not None:
        file.write(_written(block, str(output)))
    if file is None or as_json:
        result(_written(block, ".json" if as_json else ".yaml"))
    if old is not None:
        _say_changes(old, block)
    _say(block, sources, output if file is not None else None)


def _read_near(near: str) -> Block:
    from planner.files.load import load_block

    return load_block(near).require()


def _say_changes(old: Block, new: Block) -> None:
    from planner.report.changes import changes

    found = changes(old, new)
    note("")
    note("Changes from the block in use:" if found else "Nothing changes from the block in use.")
    for line in found:
        note(f"  {line}")


def _make(
    sources: Sources, start: datetime.date | None, old: Block | None, budget: float | None, folder: Path
) -> Block:
    from planner.cli.placing import locator, placed
    from planner.domain.findings import UserError
    from planner.problem.from_files import estimate_and_problem
    from planner.solve.block import make_block

    inputs = sources.inputs
    for line in sources.choices():
        note(line)
    try:
        estimate, problem = estimate_and_problem(inputs, start, locator(sources.athlete))
    except UserError as error:
        raise UserError(placed(error.findings, sources.athlete)) from error
    show_findings([*sources.findings, *placed(estimate.findings, sources.athlete)])
    return make_block(_solve(problem, sources, old, budget), estimate.gap, _references(sources, folder))


def _solve(problem: Problem, sources: Sources, old: Block | None, budget: float | None) -> Solution:
    from planner.domain.findings import Finding, UserError
    from planner.solve.near import solve_near
    from planner.solve.stages import DEFAULT_BUDGET, BudgetSpent, NoBlock, solve

    progress, allowed = Progress(), budget or DEFAULT_BUDGET
    try:
        return solve(problem, allowed, progress) if old is None else solve_near(problem, old, allowed, progress)
    except NoBlock as no_block:
        progress("no block keeps every rule; looking for the rules that conflict")
        raise UserError(_conflict(no_block, sources)) from no_block
    except BudgetSpent as spent:
        progress("no block was found; looking for minutes that would do")
        message = f"no block was found within the budget of {allowed:g}, and none was ruled out"
        what_to_do = f"give it more with --budget{_more_minutes(problem, sources)}"
        raise UserError([Finding(sources.athlete.path, 0, 0, "budget-spent", message, what_to_do)]) from spent
    finally:
        progress.done()


def _more_minutes(problem: Problem, sources: Sources) -> str:
    """The minutes with which there is a block, where some few more are enough; else nothing."""
    from planner.report.change_words import steps_in_words
    from planner.solve.repair import minutes_that_do

    change = minutes_that_do(problem, _rebuild(sources, problem))
    return f"; one change that would do: {steps_in_words(change.steps, problem)}" if change else ""


def _conflict(no_block: NoBlock, sources: Sources) -> list[Finding]:
    from planner.cli.placing import locator, placed
    from planner.report.conflict import conflict_findings
    from planner.solve.conflict import find_conflict

    problem = no_block.problem
    conflict = find_conflict(problem, no_block.rows, _rebuild(sources, problem), no_block.core)
    found = conflict_findings(conflict, problem, sources.athlete.path, locator(sources.athlete))
    return placed(found, sources.athlete)


def _rebuild(sources: Sources, problem: Problem) -> Rebuild:
    """Makes the Problem of the same files where some lines of the athlete's are changed."""
    from planner.problem.from_files import estimate_and_problem

    def rebuild(athlete: Athlete) -> Problem:
        return estimate_and_problem(replace(sources.inputs, athlete=athlete), problem.start)[1]

    return rebuild


def _references(sources: Sources, folder: Path) -> References:
    from planner.cli.references import reference
    from planner.solve.block import References

    return References(
        athlete=reference(sources.athlete_at, sources.athlete.sha256, folder),
        library=reference(sources.library_at, sources.library.sha256, folder),
        template=reference(sources.template_at, sources.template.sha256, folder),
        benchmarks=reference(sources.benchmarks_at, sources.benchmarks.sha256, folder),
    )


def _written(block: Block, path: str) -> bytes:
    from planner.files.dump import block_to_json, block_to_yaml

    return (block_to_json(block) if path.endswith(".json") else block_to_yaml(block)).encode("utf-8")


def _say(block: Block, sources: Sources, output: str | None) -> None:
    import shlex

    from planner.report.plan_text import plan_text

    note("")
    note(plan_text(block, len(sources.inputs.library.movements)).rstrip())
    if output is None:
        note("Next: keep it with -o BLOCK.yaml, then print it with jumpblock cards.")
        return
    cards = Path(output).with_suffix(".pdf").as_posix()
    note(f"Written: {output}")
    note(f"Next: jumpblock cards {shlex.quote(output)} -o {shlex.quote(cards)}")
