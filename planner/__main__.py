"""``python -m planner`` is the ``jumpblock`` command."""

import sys

from planner.cli import main

sys.exit(main())
