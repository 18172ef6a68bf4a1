"""A solver that stops when the user says stop.

CP-SAT takes Ctrl-C for "that will do" and hands back what it has, which would then be written as if it had searched to
the end; and Python cannot act on a signal while its main thread is inside the search. So the search runs in a thread of
its own, and an interrupt reaches the command.
"""

from __future__ import annotations

import threading

from ortools.sat.python import cp_model

LISTEN_EVERY_S = 0.2  # a wait without an end could not be interrupted on every system


class InterruptibleSolver(cp_model.CpSolver):  # type: ignore[misc]  # ortools is not typed here
    """As its base, but KeyboardInterrupt gets through: the search is stopped first."""

    def __init__(self) -> None:
        super().__init__()
        self.parameters.catch_sigint_signal = False

    def solve(
        self, model: cp_model.CpModel, solution_callback: cp_model.CpSolverSolutionCallback | None = None
    ) -> cp_model.CpSolverStatus:
        """Status of the search. Raises what the search raises, and KeyboardInterrupt."""
        outcome: list[cp_model.CpSolverStatus | BaseException] = []

        def search() -> None:
            try:
                outcome.append(super(InterruptibleSolver, self).solve(model, solution_callback))
            except BaseException as error:
                outcome.append(error)

        thread = threading.Thread(target=search, daemon=True)
        try:
            thread.start()
            while thread.is_alive():
                thread.join(LISTEN_EVERY_S)
        except KeyboardInterrupt:
            # Asked again and again: a search that has not begun yet does not hear the first time, and a thread left
            # behind would bring the whole process down at its end.
            while thread.is_alive():
                self.stop_search()
                thread.join(LISTEN_EVERY_S)
            raise
        if isinstance(outcome[0], BaseException):
            raise outcome[0]
        return outcome[0]
