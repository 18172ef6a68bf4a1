"""The rest of a running block against a fresh plan from the same day: ten athletes, four events each.

Processor time of this process over that of planning the whole block, whether both stages are proved, and the cards to
print again against those of a fresh plan. Run: python -m tests.benchmarks.revise [how many athletes]
"""

from __future__ import annotations

import statistics
import sys
import time
from dataclasses import replace

from planner.domain.athlete import JointState
from planner.domain.block import Block, PastSession, Revision
from planner.domain.findings import UserError
from planner.problem.from_files import Inputs, estimate_and_problem
from planner.problem.revised import routines_of, since_of
from planner.report.revise_text import cards_to_print
from planner.solve.found_plan import BudgetSpent, NoBlock
from planner.solve.past import with_past
from tests.benchmarks.people import healthy_adults
from tests.independence.drawn import inputs
from tests.revise.rest import Rest, rest_of_problem
from tests.solve.demos import SOMEWHERE, Demo, solve_for

FIRST_WEEK = 4  # planned anew from its first day on
PAIN, HEAVIER = 4, 1.08
EVENTS = ("missed session", "pain 4", "+8 % loads", "days lost")


def _told(demo: Demo, *missed: str) -> Block:
    block, training = demo.block, demo.inputs.athlete.training
    first_day = block.weeks[FIRST_WEEK - 1].start
    revision = Revision(
        first_day=first_day,
        block=SOMEWHERE,
        routines=routines_of(block, first_day, training),
        done=tuple(PastSession(session=one, missed="other") for one in missed),
    )
    return block.model_copy(update={"revision": revision})


def _rest(demo: Demo, event: str) -> Rest:
    """The rest from the fourth week on, after the event in the third."""
    third = [session.id for session in demo.block.weeks[FIRST_WEEK - 2].sessions]
    missed = {"missed session": third[-1:], "days lost": third[-2:]}.get(event, [])
    told, given = _told(demo, *missed), _sore(demo.inputs) if event == "pain 4" else demo.inputs
    result, problem = estimate_and_problem(given, demo.block.weeks[0].start, since=since_of(told))
    if event == "+8 % loads":
        problem = replace(problem, gained={lift: HEAVIER for lift, _ in problem.one_rm_kg})
    return rest_of_problem(with_past(problem, told), told, result.gap)


def _fresh_cards(demo: Demo) -> int:
    """Cards that a fresh plan with a knee at the same pain would change from that day on."""
    told = _told(demo)
    fresh = solve_for(_sore(demo.inputs), demo.block.weeks[0].start).block
    return len(cards_to_print(told, fresh.model_copy(update={"revision": told.revision})))


def _sore(given: Inputs) -> Inputs:
    knee = JointState(joint="patellar-knee", side="left", pain=PAIN)
    return replace(given, athlete=given.athlete.model_copy(update={"joints": (knee,)}))


def main() -> None:
    wanted = int(sys.argv[1]) if len(sys.argv) > 1 else None
    ratios: dict[str, list[float]] = {event: [] for event in EVENTS}
    for name, lines in healthy_adults()[:wanted]:
        start = time.process_time()
        demo = solve_for(inputs(lines, "eight-week"))
        unit = time.process_time() - start
        print(f"{name}: planned in {unit:.1f} s of this processor", flush=True)
        for event in EVENTS:
            start = time.process_time()
            try:
                rest = _rest(demo, event)
            except (UserError, NoBlock, BudgetSpent) as error:
                print(f"  {event:16s} {type(error).__name__}", flush=True)
                continue
            ratio = (time.process_time() - start) / unit
            ratios[event].append(ratio)
            least, fewest = rest.solution.proof.stages
            cards = len(cards_to_print(rest.told, rest.new))
            said = f"{ratio:5.2f} of planning; shortfall {least.objective} ({least.status}), "
            said += f"changes {fewest.objective} ({fewest.status}, at best {fewest.bound}), {cards} cards"
            print(f"  {event:16s} {said}", flush=True)
        try:
            start = time.process_time()
            cards = _fresh_cards(demo)
            print(f"  a fresh plan with that pain changes {cards} cards, in {(time.process_time() - start) / unit:.2f}")
        except (UserError, NoBlock, BudgetSpent) as error:
            print(f"  a fresh plan with that pain: {type(error).__name__}", flush=True)
    for event, found in ratios.items():
        if found:
            print(
                f"median {event:16s} {statistics.median(found):.2f} of planning ({min(found):.2f} to {max(found):.2f})"
            )


if __name__ == "__main__":
    main()
