"""A squad as a whole: drawn halls, and the blocks of a squad against those of ``plan``.

Run: python -m tests.benchmarks.squad slots --count 300
     python -m tests.benchmarks.squad plan --athletes 24 --jobs 2 [--kept FOLDER]
     python -m tests.benchmarks.squad killed --athletes 20 --jobs 2     every tenth task's process killed as it plans
     python -m tests.benchmarks.squad cluster --athletes 10             two Dask workers, one killed midway
"""

from __future__ import annotations

import argparse
import contextlib
import os
import signal
import tempfile
import time
from collections import Counter
from pathlib import Path

from planner.jobs.new_squad_sheet import filled_sheet
from planner.jobs.on_cluster import on_cluster
from planner.jobs.plan_one import PlanTask, plan_one
from planner.jobs.plan_squad import PlanOptions, plan_squad
from planner.jobs.read_squad_sheet import read_squad_sheet
from planner.jobs.squad_files import read_squad
from planner.jobs.worker_pool import in_processes
from planner.solve.start_times import plan_day
from tests.squads.drawn import battery, rows
from tests.squads.halls import HIGHS_INFEASIBLE, breaches, drawn_day, highs_status
from tests.squads.hard_work import planned_at_the_second_try

DEMO = Path(__file__).parents[2] / "templates" / "squads" / "demo-squad.yaml"


def slots(seeds: range) -> Counter[str]:
    """Drawn halls: proved, impossible, and what must not be: breaches by a counter of its own, answers HiGHS denies."""
    found: Counter[str] = Counter()
    for seed in seeds:
        of = drawn_day(seed)
        plan = plan_day(of)
        found[plan.status] += 1
        if plan.starts:
            found["breaches"] += len(list(breaches(of, plan)))
        status, cost = highs_status(plan.model)
        if plan.status == "impossible":
            found["refusals that HiGHS confirms" if status == HIGHS_INFEASIBLE else "refusals not confirmed"] += 1
        elif plan.status == "optimal" and status == 0:
            found["least costs that HiGHS confirms" if round(cost or 0) == plan.cost else "other costs"] += 1
    return found


def drawn_squad(folder: Path, athletes: int) -> dict[str, str]:
    """Files of a drawn squad, by athlete, read from a sheet into ``folder``."""
    (folder / "squad.yaml").write_text(DEMO.read_text("utf-8").split("halls:")[0], "utf-8")
    (folder / "tests.xlsx").write_bytes(filled_sheet(battery(), (), rows(athletes)))
    read_squad_sheet(str(folder / "tests.xlsx"), str(folder / "athletes"))
    return read_squad(str(folder / "squad.yaml")).athletes


def plan(athletes: int, jobs: int, kept: str | None = None) -> dict[str, float]:
    """Processor time an athlete, the squad's to ``plan``'s; wall time of one job to that of all; the same bytes.

    ``kept``: a new folder for the files, so that start times can be asked for after it.
    """
    with tempfile.TemporaryDirectory() if kept is None else contextlib.nullcontext(kept) as name:
        folder = Path(name)
        folder.mkdir(exist_ok=True)
        squad = drawn_squad(folder, athletes)
        wall_s, squad_s = {}, {}
        for number in sorted({1, jobs}):
            began, before = time.monotonic(), os.times()
            plan_squad(squad, folder / f"blocks-{number}", PlanOptions(), jobs=number)
            wall_s[number] = time.monotonic() - began
            squad_s[number] = sum(os.times()[:4]) - sum(before[:4])
        mine = time.process_time()
        same = 0
        for athlete, path in squad.items():
            alone = folder / "alone" / f"{athlete}.yaml"
            plan_one(PlanTask(path, alone.as_posix()))
            found = [_bytes(one) for one in (alone, *(folder / f"blocks-{n}" / alone.name for n in wall_s))]
            same += len(set(found)) == 1
        alone_s = time.process_time() - mine
    return {
        "cpu s an athlete": squad_s[jobs] / athletes,
        "to plan alone": squad_s[jobs] / alone_s,
        "wall s of one job": wall_s[1],
        "to that of all jobs": wall_s[1] / wall_s[jobs],
        "same bytes": same,
    }


def _bytes(path: Path) -> bytes | None:
    return path.read_bytes() if path.is_file() else None


def _players(folder: Path, count: int) -> dict[str, str]:
    """Files of the in-season player under other names, by name: the quickest block of the demos."""
    text = (DEMO.parents[1] / "athletes" / "in-season-player.yaml").read_text("utf-8")
    found = {}
    for number in range(count):
        path = folder / "athletes" / f"player-{number}.yaml"
        path.parent.mkdir(exist_ok=True)
        path.write_text(text.replace("Petra Solano", f"Player {number}"), "utf-8")
        found[path.stem] = path.as_posix()
    return found


def _same_bytes(athletes: dict[str, str], folder: Path) -> int:
    """How many blocks in ``folder`` are those that ``plan`` makes alone, in a folder next to it."""
    same = 0
    for name, path in athletes.items():
        alone, there = folder.parent / "alone" / f"{name}.yaml", folder / f"{name}.yaml"
        plan_one(PlanTask(path, alone.as_posix()))
        same += there.is_file() and alone.read_bytes() == there.read_bytes()
    return same


def killed(count: int, jobs: int) -> dict[str, float]:
    """Tasks of which every tenth loses its process once, a second after it began to plan."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        athletes = _players(folder, count)
        for made in ("blocks", "alone", "marks"):
            (folder / made).mkdir()
        tasks = [
            (PlanTask(path, f"{folder}/blocks/{stem}.yaml"), "" if at % 10 else f"{folder}/marks/{stem}")
            for at, (stem, path) in enumerate(athletes.items())
        ]
        done = [one for _, one in in_processes(planned_at_the_second_try, tasks, jobs) if one is not None]
        marks = len(list((folder / "marks").iterdir()))
        return {"done": len(done), "killed": marks, "same bytes": _same_bytes(athletes, folder / "blocks")}


def cluster(count: int) -> dict[str, float]:
    """On a local cluster of two workers, each a process; one is killed as soon as the first block is there."""
    from distributed import Client, LocalCluster

    with tempfile.TemporaryDirectory() as name, LocalCluster(n_workers=2, threads_per_worker=1) as local:
        folder = Path(name)
        athletes = _players(folder, count)
        for made in ("blocks", "alone"):
            (folder / made).mkdir()
        tasks = [PlanTask(path, f"{folder}/blocks/{stem}.yaml") for stem, path in athletes.items()]
        with Client(local) as client:
            pids = list(client.run(os.getpid).values())
        done = 0
        for _, planned in on_cluster(local.scheduler_address)(tasks):
            if not done:
                os.kill(pids[0], signal.SIGKILL)
            done += planned is not None
        return {"done": done, "killed": 1, "same bytes": _same_bytes(athletes, folder / "blocks")}


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("what", choices=("slots", "plan", "killed", "cluster"))
    parser.add_argument("--count", type=int, default=300)
    parser.add_argument("--athletes", type=int, default=24)
    parser.add_argument("--jobs", type=int, default=os.cpu_count() or 1)
    parser.add_argument("--kept", help="a new folder for what plan makes")
    said = parser.parse_args()
    if said.what in ("plan", "killed", "cluster"):
        runs = {
            "plan": lambda count, jobs: plan(count, jobs, said.kept),
            "killed": killed,
            "cluster": lambda count, _: cluster(count),
        }
        for name, figure in runs[said.what](said.athletes, said.jobs).items():
            print(f"{name}: {figure:.2f}")
        return
    found = slots(range(said.count))
    print(", ".join(f"{name} {count}" for name, count in sorted(found.items())))


if __name__ == "__main__":
    main()
