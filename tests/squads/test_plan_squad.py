"""A squad is planned athlete by athlete: refusals and kills cost one athlete, and what is done is not done again."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterator, Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from planner.jobs import plan_squad as module
from planner.jobs.on_cluster import Bundle, bundled, bundles, plan_bundle
from planner.jobs.plan_one import Planned, PlanTask, plan_one
from planner.jobs.plan_squad import RECORD, PlanOptions, SquadRow, plan_squad
from planner.jobs.squad_files import read_squad
from planner.jobs.worker_pool import in_processes
from tests.cli.conftest import athlete, coach, planned, solved_once  # noqa: F401  (the fixtures)
from tests.squads import hard_work

ASKED: list[list[str]] = []


def stub(tasks: Sequence[PlanTask]) -> Iterator[tuple[int, Planned | None]]:
    """In place of planning: a file for each athlete but the second, which is refused, and the third, which crashes."""
    ASKED.append([Path(task.athlete).stem for task in tasks])
    for number, task in enumerate(tasks):
        name = Path(task.athlete).stem
        if name == "bela-rossi":
            yield number, Planned(name, ("no block keeps these rules together",))
        elif name == "cleo-olsen":
            yield number, None
        else:
            Path(task.block).write_text(name, "utf-8")
            yield number, Planned(name, (), hashlib.sha256(name.encode()).hexdigest())


def again(club: Path, **said: Any) -> list[SquadRow]:
    ASKED.clear()
    only = ("ada-varga", "bela-rossi", "cleo-olsen", "dina-weiss")
    return plan_squad(
        read_squad(str(club / "squad.yaml")).athletes, club / "blocks", PlanOptions(only=only, **said), runner=stub
    )


def test_each_athlete_has_a_row_whatever_came_of_it(club: Path) -> None:
    rows = again(club)
    assert [row.status for row in rows] == ["planned", "refused", "crashed", "planned"]
    assert "run the command again" in rows[2].planned.why[0]


def test_a_second_run_does_only_what_is_missing_or_changed(club: Path) -> None:
    again(club)
    assert [row.status for row in again(club)] == ["unchanged", "refused", "crashed", "unchanged"]
    assert ASKED == [["cleo-olsen"]]  # a refusal of the same files would be the same
    ada = club / "athletes/ada-varga.yaml"
    ada.write_text(ada.read_text("utf-8").replace("steps: 7", "steps: 5"), "utf-8")
    (club / "blocks/dina-weiss.yaml").unlink()
    again(club)
    assert ASKED == [["ada-varga", "cleo-olsen", "dina-weiss"]]
    again(club, force=True)
    assert len(ASKED[0]) == 4


def test_a_broken_record_is_no_record(club: Path) -> None:
    again(club)
    (club / "blocks" / RECORD).write_text("[1, 2", "utf-8")
    again(club)
    assert len(ASKED[0]) == 4
    (club / "blocks" / RECORD).write_text(json.dumps({"ada-varga": {"inputs": 3}, "dina-weiss": []}), "utf-8")
    again(club)
    assert len(ASKED[0]) == 4


def test_a_broken_athlete_is_refused_before_any_process(club: Path) -> None:
    (club / "athletes/dina-weiss.yaml").write_text("file: athlete/1\nname: Dina\n", "utf-8")
    row = again(club)[3]
    assert row.status == "refused" and "dina-weiss.yaml:" in row.planned.why[0]
    assert "dina-weiss" not in ASKED[0]


def test_the_command_says_all_and_ends_with_1(club: Path, run: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(module, "in_processes", lambda work, tasks, jobs: stub(tasks))
    found = run("squad", "plan", club / "squad.yaml", "--only", "ada-varga", "--only", "bela-rossi")
    assert found.code == 1
    assert "2 athletes: 1 planned, 1 refused." in found.out
    assert "bela-rossi: no block keeps these rules together" in found.out
    assert run("squad", "plan", club / "squad.yaml", "--only", "ada-varga", "--json").json["athletes"][0]["status"] == (
        "unchanged"
    )


def test_one_athlete_as_plan_makes_it(coach: Path) -> None:  # noqa: F811
    """The same bytes; here, and as on another machine, from a copy of the files."""
    task = PlanTask(str(athlete(coach)), str(coach / "block.yaml"))
    before = (coach / "block.yaml").read_bytes()
    there, raw = plan_bundle(bundled(task))
    assert raw == before and not there.why
    (coach / "block.yaml").unlink()
    here = plan_one(task)
    assert (coach / "block.yaml").read_bytes() == before
    assert here == there and here.sha256 == hashlib.sha256(before).hexdigest()


def test_a_block_edited_by_hand_stays_until_it_is_moved_away(coach: Path) -> None:  # noqa: F811
    (coach / "squad.yaml").write_text(
        "file: squad/1\nname: One\nathletes: [templates/athletes/in-season-player.yaml]\nblocks: .\n", "utf-8"
    )
    block = coach / "in-season-player.yaml"
    edited = (coach / "block.yaml").read_bytes().replace(b"minutes: ", b"minutes: 1", 1)
    block.write_bytes(edited)

    def here(tasks: Sequence[PlanTask]) -> Iterator[tuple[int, Planned]]:
        return ((number, plan_one(task)) for number, task in enumerate(tasks))

    squad = read_squad(str(coach / "squad.yaml"))
    (row,) = plan_squad(squad.athletes, coach, PlanOptions(), runner=here)
    assert row.status == "refused" and "[edited-block]" in row.planned.why[0]
    assert block.read_bytes() == edited
    block.unlink()
    (row,) = plan_squad(squad.athletes, coach, PlanOptions(), runner=here)
    assert row.status == "planned" and block.read_bytes() == (coach / "block.yaml").read_bytes()


def test_a_block_with_a_log_is_kept_when_the_athlete_changes(coach: Path, run: Any) -> None:  # noqa: F811
    """A retest is read into the athlete's file; the block that was trained must not be lost by it."""
    one = f"file: squad/1\nname: One\nathletes: [{athlete(coach).relative_to(coach).as_posix()}]\nblocks: .\n"
    (coach / "squad.yaml").write_text(one, "utf-8")
    block = coach / "in-season-player.yaml"
    block.write_bytes((coach / "block.yaml").read_bytes())
    assert run("log", block, "w1s1", "--as-planned", "--effort", 6).code == 0
    before = block.read_bytes()
    athlete(coach).write_text(athlete(coach).read_text("utf-8") + "# another file by now\n", "utf-8")
    told = run("squad", "plan", coach / "squad.yaml")
    assert told.code == 0 and block.read_bytes() == before
    assert "1 athlete: 1 kept." in told.out and "Kept, since they have a log: in-season-player." in told.out
    assert "jumpblock revise BLOCK" in told.out

    def asked(tasks: Sequence[PlanTask]) -> Iterator[tuple[int, Planned]]:
        return ((number, Planned(Path(task.block).stem)) for number, task in enumerate(tasks))

    athletes = read_squad(str(coach / "squad.yaml")).athletes
    assert [row.status for row in plan_squad(athletes, coach, PlanOptions(force=True), runner=asked)] == ["planned"]
    (coach / "in-season-player-log.yaml").unlink()
    assert [row.status for row in plan_squad(athletes, coach, PlanOptions(), runner=asked)] == ["planned"]


def test_the_next_blocks_go_on_from_those_before(coach: Path, run: Any) -> None:  # noqa: F811
    """The same bytes as ``plan --after``; here, and as on another machine. A new entry in the log plans anew."""
    (coach / "squad.yaml").write_text(
        f"file: squad/1\nname: One\nathletes: [{athlete(coach).relative_to(coach).as_posix()}]\nblocks: old\n", "utf-8"
    )
    old, alone, following = (coach / name / "in-season-player.yaml" for name in ("old", "alone", "next"))
    for path in (old, alone):
        path.parent.mkdir()
    assert run("plan", athlete(coach), "-o", old).code == 0
    assert run("log", old, "w1s1", "--as-planned", "--effort", 6).code == 0
    assert run("plan", athlete(coach), "--after", old, "-o", alone).code == 0
    tasks: list[PlanTask] = []

    def here(asked: Sequence[PlanTask]) -> Iterator[tuple[int, Planned]]:
        tasks.extend(asked)
        return ((number, plan_one(task)) for number, task in enumerate(asked))

    athletes, said = read_squad(str(coach / "squad.yaml")).athletes, PlanOptions(after=old.parent)
    assert [row.status for row in plan_squad(athletes, following.parent, said, runner=here)] == ["planned"]
    assert following.read_bytes() == alone.read_bytes()
    assert plan_bundle(bundled(tasks[0]))[1] == alone.read_bytes()
    assert [row.status for row in plan_squad(athletes, following.parent, said, runner=stub)] == ["unchanged"]
    assert run("log", old, "w1s2", "--missed", "ill").code == 0
    assert [row.status for row in plan_squad(athletes, following.parent, said, runner=stub)] == ["planned"]
    for folder, says in (
        (old.parent, "give -o another folder"),
        (coach / "no", "there is no folder"),
        (coach, "no block"),
    ):
        refused = run("squad", "plan", coach / "squad.yaml", "--after", folder)
        assert refused.code == 2 and says in refused.err


def test_who_has_no_block_before_is_told(club: Path, run: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    """A wrong name or a block moved away would lose what was trained, unnoticed."""
    before = club / "old"
    before.mkdir()
    (before / "ada-varga.yaml").write_text("a block")

    def made(tasks: Sequence[PlanTask]) -> Iterator[tuple[int, Planned]]:
        figures = {"gap_N": 1, "gap_N_se": 1, "short_percent": {}, "proved": True, "missed": []}
        return ((number, Planned(Path(task.athlete).stem, (), "", figures)) for number, task in enumerate(tasks))

    monkeypatch.setattr(module, "in_processes", lambda _, asked, jobs: made(asked))
    words = ("--after", before, "-o", club / "next", "--only", "ada-varga", "--only", "dina-weiss")
    told = run("squad", "plan", club / "squad.yaml", *words)
    assert told.code == 0 and "Go on from the block before: ada-varga." in told.out
    assert "No block before, planned as a first one: dina-weiss." in told.out


def test_a_broken_block_before_costs_only_its_own_athlete(club: Path) -> None:
    """On other machines too: the bundle of its files cannot be made."""
    athletes = read_squad(str(club / "squad.yaml")).athletes
    (club / "bad.yaml").write_text("file: block/1\n")
    tasks = [PlanTask(athletes[name], str(club / f"next-{name}.yaml")) for name in ("ada-varga", "dina-weiss")]
    tasks[0] = replace(tasks[0], after=str(club / "bad.yaml"))

    (_, spoilt), (_, whole) = bundles(tasks)
    assert isinstance(spoilt, Planned) and "bad.yaml" in spoilt.why[0]
    assert isinstance(whole, Bundle)


def test_another_machine_gets_the_coachs_follow_up_file(coach: Path) -> None:  # noqa: F811
    """What a block before leaves depends on it."""
    task = PlanTask(str(athlete(coach)), str(coach / "next.yaml"), after=str(coach / "block.yaml"))
    assert "templates/follow-up/standard.yaml" in bundled(task).files and "block.yaml" in bundled(task).files


def test_processes_give_every_result_and_a_killed_one_costs_nobody() -> None:
    assert dict(in_processes(hard_work.doubled, range(5), 2)) == {0: 0, 1: 2, 2: 4, 3: 6, 4: 8}


def test_a_task_whose_process_is_killed_is_done_again(tmp_path: Path) -> None:
    tasks = [(number, str(tmp_path / "mark") if number == 1 else "") for number in range(4)]
    assert dict(in_processes(hard_work.killed_once, tasks, 2)) == {0: 0, 1: 2, 2: 4, 3: 6}


def test_a_task_that_kills_its_process_each_time_is_given_up() -> None:
    assert dict(in_processes(hard_work.killed_always, range(3), 2)) == {0: 0, 1: None, 2: 4}


def test_a_bug_is_raised_where_the_command_sees_it() -> None:
    with pytest.raises(ZeroDivisionError, match="at 0"):
        list(in_processes(hard_work.bug, range(2), 1))


@pytest.mark.parametrize(
    ("old", "new", "code"),
    [
        ("athletes: [athletes]", "athletes: [nobody]", "no-athletes"),
        ("ada-varga, bela", "ada-vargo, bela", "unknown-athlete"),
        ('from: "16:00", to: "20:00"', 'from: "16:00", to: "15:00"', "ends-before-it-begins"),
        ("group: early", "group: late", "unknown-group"),
        ("{gain: 7 cm, method: touch}", "{gain: 7 cm, rise: 60 cm, method: touch}", "target-not-one"),
        ("- {name: Coach A}", "- {name: Coach A, hall: Yard}", "unknown-hall"),
        ("parts: [sprint, approach-jump]", "loads_alike: true", "takes-nothing"),
        ("name: platform", "name: rack", "name-twice"),
        ("wishes:", 'wishes:\n  - {time: "17:00"}', "wish-of-whom"),
    ],
)
def test_a_squad_that_cannot_be(club: Path, run: Any, old: str, new: str, code: str) -> None:
    path = club / "squad.yaml"
    text = path.read_text("utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), "utf-8")
    assert code in run("squad", "plan", path, "--json").codes
