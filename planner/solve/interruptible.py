"""A solver that stops when the user says stop.

CP-SAT treats Ctrl-C as "good enough" and returns what it has, which would be written as if the search had finished; and
Python cannot act on a signal while its main thread is inside the search. So the search runs in its own thread. The
signal only sets a flag, because an exception at an arbitrary point could leave that thread running at exit.
"""

from __future__ import annotations

import signal
import threading
from collections.abc import Iterator
from contextlib import contextmanager

from ortools.sat.python import cp_model

LISTEN_EVERY_S = 0.2  # how soon an interrupt takes effect


class InterruptibleSolver(cp_model.CpSolver):  # type: ignore[misc]  # ortools is not typed here
    """Like its base, but Ctrl-C stops the search and raises KeyboardInterrupt."""

    def __init__(self) -> None:
        super().__init__()
        self.parameters.catch_sigint_signal = False

    def solve(
        self, model: cp_model.CpModel, solution_callback: cp_model.CpSolverSolutionCallback | None = None
    ) -> cp_model.CpSolverStatus:
        """The status of the search. Raises what the search raises, or KeyboardInterrupt after an interrupt."""
        if threading.current_thread() is not threading.main_thread():
            return super().solve(model, solution_callback)  # only the main thread gets signals
        outcome: list[cp_model.CpSolverStatus | BaseException] = []

        def search() -> None:
            try:
                outcome.append(super(InterruptibleSolver, self).solve(model, solution_callback))
            except BaseException as error:
                outcome.append(error)

        thread = threading.Thread(target=search)
        with _listening() as interrupted:
            thread.start()
            while thread.is_alive():
                thread.join(LISTEN_EVERY_S)
                if interrupted.is_set():
                    self.stop_search()  # every time, because it does nothing before the search begins
        if interrupted.is_set():
            raise KeyboardInterrupt
        if isinstance(outcome[0], BaseException):
            raise outcome[0]
        return outcome[0]


@contextmanager
def _listening() -> Iterator[threading.Event]:
    """Inside, an interrupt sets the event and does nothing else."""
    interrupted = threading.Event()
    before = signal.signal(signal.SIGINT, lambda *_: interrupted.set())
    try:
        yield interrupted
    finally:
        signal.signal(signal.SIGINT, signal.SIG_DFL if before is None else before)
