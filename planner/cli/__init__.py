"""The command line: parse, call, print, exit. Each command is a small file that imports what it uses when it runs."""

from planner.cli.app import main, run

__all__ = ["main", "run"]
