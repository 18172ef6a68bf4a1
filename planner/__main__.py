"""``python -m planner`` is the ``jumpblock`` command."""

import sys

from planner.cli import run

sys.exit(run())
