"""``jumpblock check``: any of our files."""

from __future__ import annotations

import click

from planner.cli.output import Command, findings_json, result, show_findings


@click.command("check", cls=Command, short_help="Check files, and blocks against the rules.")
@click.argument("paths", metavar="FILE|DIR...", nargs=-1, required=True, type=click.Path())
@click.option(
    "--format",
    "form",
    type=click.Choice(["text", "json", "github"]),
    help="How to print the findings: for reading (text), as data, or as notes on the lines of a pull request.",
)
@click.option("--verbose", is_flag=True, help="Also say how each unusual figure was read, such as 6'2\".")
@click.option("--json", "as_json", is_flag=True, help="The same as --format json.")
@click.option(
    "--library", type=click.Path(), help="Folder of movements [default: near each file, else the shipped one]."
)
@click.pass_context
def command(
    ctx: click.Context, paths: tuple[str, ...], form: str | None, verbose: bool, as_json: bool, library: str | None
) -> None:
    """Check athletes, movements, templates and blocks.

    Every file is read in full: its form, the names it uses, whether its figures make sense. A block is also counted
    again and held to every rule, which is how to see what an edit by hand breaks.
    """
    from planner.domain.findings import has_errors
    from planner.files.render import finding_to_github, in_order
    from planner.files.text import printable
    from planner.jobs.check_files import FileChecker, verdict

    checker = FileChecker(library, verbose=verbose)
    found = {path: checker.check(path) for path in dict.fromkeys(paths)}
    everything = in_order(finding for findings in found.values() for finding in findings)
    if as_json and form not in (None, "json"):
        raise click.UsageError(f"give --json or --format {form}, not both")
    if as_json or form == "json":
        result(findings_json(everything))
    elif form == "github":
        result("".join(f"{finding_to_github(finding)}\n" for finding in everything))
    else:
        show_findings(everything, on_stdout=True)
        result("".join(f"{printable(path)}: {verdict(findings)}\n" for path, findings in found.items()))
    if has_errors(everything):
        ctx.exit(1)
