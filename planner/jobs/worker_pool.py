"""Tasks in processes of their own. A process that is killed costs its own task another try, and no other task."""

from __future__ import annotations

import contextlib
import multiprocessing
from collections import deque
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from multiprocessing.connection import Connection, wait
from multiprocessing.process import BaseProcess
from typing import Any, TypeVar, cast

Task = TypeVar("Task")
Result = TypeVar("Result")
TRIES = 2  # a task whose process dies twice is given up
_LAST_WORDS_s = 2.0


@dataclass
class _Worker:
    process: BaseProcess
    pipe: Connection
    task: int


def in_processes(
    work: Callable[[Task], Result], tasks: Sequence[Task], jobs: int
) -> Iterator[tuple[int, Result | None]]:
    """The number and the result of each task as it is done; None for one whose process died ``TRIES`` times.

    ``work`` must be a function of a module, and tasks and results must be picklable. An exception in it is a bug, and
    is raised here. Whoever stops reading ends all processes.
    """
    waiting, tries = deque(range(len(tasks))), [0] * len(tasks)
    busy: dict[Connection, _Worker] = {}
    idle: list[_Worker] = []
    try:
        while waiting or busy:
            while waiting and len(busy) < jobs:
                worker = idle.pop() if idle else _start(work)
                worker.task = waiting.popleft()
                tries[worker.task] += 1
                busy[worker.pipe] = worker
                _send(worker, tasks[worker.task])
            for pipe in wait(list(busy)):
                worker = busy.pop(cast("Connection[Any, Any]", pipe))
                answer = _answer(worker)
                if answer is None and tries[worker.task] < TRIES:
                    waiting.append(worker.task)
                    continue
                if answer is not None:
                    idle.append(worker)
                yield worker.task, None if answer is None else _result(answer)
    finally:
        for worker in [*busy.values(), *idle]:
            _end(worker)


def _start(work: Callable[[Any], Any]) -> _Worker:
    # Processes begun anew: a copy of this one could hold locks of threads that it does not have.
    context = multiprocessing.get_context("spawn")
    here, there = context.Pipe()
    process = context.Process(target=_serve, args=(there, work), daemon=True)
    process.start()
    there.close()
    return _Worker(process, here, -1)


def _serve(pipe: Connection, work: Callable[[Any], Any]) -> None:
    """In the worker: tasks until nobody sends one."""
    while True:
        try:
            task = pipe.recv()
        except (EOFError, KeyboardInterrupt):
            return
        try:
            answer = (True, work(task))
        except KeyboardInterrupt:
            return
        except Exception as error:  # told where the command can show it
            answer = (False, error)
        try:
            pipe.send(answer)
        except OSError:  # nobody waits for it any more
            return


def _send(worker: _Worker, task: Any) -> None:
    """A worker that is dead already shows when its answer is read."""
    with contextlib.suppress(OSError):
        worker.pipe.send(task)


def _answer(worker: _Worker) -> tuple[bool, Any] | None:
    try:
        found: tuple[bool, Any] = worker.pipe.recv()
    except (EOFError, OSError):
        _end(worker)
        return None
    return found


def _result(answer: tuple[bool, Any]) -> Any:
    good, value = answer
    if not good:
        raise value
    return value


def _end(worker: _Worker) -> None:
    worker.pipe.close()
    worker.process.terminate()
    worker.process.join(_LAST_WORDS_s)
    if worker.process.is_alive():
        worker.process.kill()
        worker.process.join()
