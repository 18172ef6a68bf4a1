"""``jumpblock log``: on a terminal, by options, from files; a refusal writes nothing, an interruption loses nothing."""

from __future__ import annotations

import io
from pathlib import Path

import pytest

from planner.domain.training_log import TrainingLog
from planner.files.digest import plan_digest
from planner.files.load import load_block, load_log
from planner.files.training_note import check_of
from tests.cli.conftest import files_in


@pytest.fixture
def block(coach: Path) -> Path:
    return coach / "block.yaml"


@pytest.fixture
def answer(monkeypatch, run, block):
    """Run ``log`` as on a terminal and type these answers; the end of them is as Ctrl-D.

    ``loads``: whether the loads that the card leaves to be found are asked for, as on a terminal.
    """

    def type_it(*answers: str, today: str = "2025-09-08", session: str = "w1s1", loads: bool = False):
        if not loads:
            monkeypatch.setattr("planner.jobs.ask_for_session.loads_not_told", lambda *_: [])
        monkeypatch.setattr("planner.cli.log.at_terminal", lambda: True)
        monkeypatch.setattr("sys.stdin", io.StringIO("".join(f"{one}\n" for one in answers)))
        return run("log", block, session, "--today", today)

    return type_it


def log_of(block: Path) -> TrainingLog:
    return load_log(block.with_name("block-log.yaml")).require()


def first(block: Path):
    return load_block(block).require().weeks[0].sessions[0]


def test_as_planned_takes_two_keys_effort_and_minutes(answer, block) -> None:
    day = str(first(block).date)
    outcome = answer("", "7", "62", "", today=day)
    assert outcome.code == 0 and "as planned, effort 7, 62 min" in outcome.err
    (entry,) = log_of(block).sessions
    assert (entry.done, entry.effort, entry.minutes, entry.items, entry.pain) == ("as-planned", 7, 62, (), ())
    assert str(entry.date) == day and entry.written == "same-day"


def test_items_are_asked_in_the_cards_order_with_the_plan_as_default(answer, block) -> None:
    items = first(block).items
    lift = next(at for at, item in enumerate(items, start=1) if item.load_kg)
    outcome = answer(f"{lift} 1", "none", "50 x 3, 3", "6", "", "left knee 1 3", "-", today=str(first(block).date))
    assert outcome.code == 0
    assert outcome.err.index(f"1  {items[0].name} (") < outcome.err.index(f"{lift}  {items[lift - 1].name} (")
    (entry,) = log_of(block).sessions
    assert entry.done == "changed" and entry.minutes == first(block).minutes
    assert [(one.item, one.sets, one.load, one.reps) for one in entry.items] == [
        (items[0].id, 0, None, ()),
        (items[lift - 1].id, None, 50.0, (3, 3)),
    ]
    assert [(one.joint, one.side, one.before, one.worst) for one in entry.pain] == [("patellar-knee", "left", 1, 3)]


def test_a_wrong_answer_is_asked_again(answer, block) -> None:
    outcome = answer("99", "", "eleven", "11", "7", "", "", today=str(first(block).date))
    assert outcome.code == 0 and "has no item '99'" in outcome.err
    assert outcome.err.count("a whole number from 0 to 10") == 2
    assert log_of(block).sessions[0].effort == 7


def test_an_interrupted_dialogue_keeps_what_was_entered_and_goes_on(answer, block) -> None:
    cut = answer("1", "none", "6")
    assert cut.code == 130 and "what was answered is in" in cut.err
    (entry,) = log_of(block).sessions
    assert (entry.done, entry.effort, len(entry.items)) == ("unfinished", 6, 1)
    again = answer("", "", "", "", "", today=str(first(block).date))
    assert again.code == 0
    (entry,) = log_of(block).sessions
    assert (entry.done, entry.effort, entry.items[0].sets) == ("changed", 6, 0)


def test_an_entry_that_was_whole_stays_whole_where_writing_it_again_is_cut_short(answer, block) -> None:
    answer("1", "none", "7", "60", "", today=str(first(block).date))
    assert answer("1", "", "5").code == 130
    (entry,) = log_of(block).sessions
    assert (entry.done, entry.effort, entry.minutes, len(entry.items)) == ("changed", 5, 60, 1)
    answer("as planned", "5", "60", "", today=str(first(block).date))
    assert (log_of(block).sessions[0].done, log_of(block).sessions[0].items) == ("as-planned", ())


def test_a_refusal_at_the_end_says_how_to_give_it_again(answer, block, run) -> None:
    run("log", block, "w1s1", "--as-planned", "--effort", 6, "--note", "fine")
    log = block.with_name("block-log.yaml")
    flow = "sessions: [{session: w1s1, date: 2025-09-08, done: as-planned}]"
    log.write_text(f"{log.read_text().partition('sessions:')[0]}{flow}\n")
    second = load_block(block).require().weeks[0].sessions[1]
    outcome = answer("", "7", "62", "left knee 1 3", "", session=second.id, today=str(second.date))
    assert outcome.code == 1 and "[cannot-edit]" in outcome.err and "write it one entry a line" in outcome.err
    assert f"jumpblock log {block} {second.id} --date {second.date} --effort 7 --minutes 62" in outcome.err
    assert "--pain 'left patellar-knee 1 3'" in outcome.err and flow in log.read_text()


def test_nothing_answered_writes_nothing(answer, coach) -> None:
    before = files_in(coach)
    assert answer().code == 130 and files_in(coach) == before


def test_the_next_morning_is_asked_and_added_to_the_session_before(answer, block) -> None:
    answer("", "7", "60", "left knee 1 4", "", today=str(first(block).date))
    second = load_block(block).require().weeks[0].sessions[1]
    outcome = answer("2", "", "6", "50", "", session=second.id, today=str(second.date))
    assert outcome.code == 0 and "after w1s1" in outcome.err
    before, after = log_of(block).sessions
    assert before.pain[0].next_morning == 2 and after.pain == ()


def test_effort_from_memory_is_asked_where_days_have_gone_by(answer, block) -> None:
    answer("", "7", "60", "", "", today="2025-12-01")
    assert log_of(block).sessions[0].written == "later"
    answer("", "7", "60", "", "yes", today="2025-12-01")
    assert log_of(block).sessions[0].written == "same-day"


def test_missed_and_another_day_on_a_terminal(answer, block) -> None:
    assert answer("missed", "ill").code == 0
    assert (log_of(block).sessions[0].done, log_of(block).sessions[0].why) == ("missed", "ill")
    answer("date", "2025-09-10", "", "7", "60", "", today="2025-09-10")
    assert str(log_of(block).sessions[0].date) == "2025-09-10"


def test_by_options_the_next_session_is_taken(run, block) -> None:
    assert run("log", block, "--as-planned", "--effort", 7, "--minutes", 60, "--pain", "left knee 1 3").code == 0
    assert run("log", block, "--missed", "match").code == 0
    outcome = run("log", block, "--next-morning", "left knee 2")
    assert outcome.code == 0 and "pain left knee: 1 before, 3 at worst, 2 next morning" in outcome.err
    done, missed = log_of(block).sessions
    assert (done.session, missed.session, missed.why) == ("w1s1", "w1s2", "match")
    assert done.pain[0].next_morning == 2


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["--item", "1", "heavy", "--effort", "5"], "'heavy' is not sets, reps"),
        (["--item", "77", "none"], "has no item '77'"),
        (["--pain", "left elbow 3"], "'elbow' is not a joint"),
        (["--body-mass", "81"], "81 has no unit"),
        (["--next-morning", "left knee 2"], "no session is logged yet"),
        (["--missed", "ill", "--effort", "3"], "--missed cannot go with"),
        (["--effort", "11"], "11 is not in the range"),
        ([], "say what was done"),
    ],
)
def test_a_refusal_writes_nothing(run, block, coach, words, said) -> None:
    before = files_in(coach)
    outcome = run("log", block, *words)
    assert outcome.code in (1, 2) and said in outcome.err
    assert files_in(coach) == before


def test_a_load_on_what_has_none_is_refused_with_what_to_write(run, block, coach) -> None:
    """A sprint and a jump without a load; the lift of the same week takes it."""
    before = files_in(coach)
    items = [(s.id, n, i) for s in load_block(block).require().sessions for n, i in enumerate(s.items, 1)]
    sprint = next((where, n) for where, n, i in items if i.part == "sprint" and i.sets)
    jump = next((where, n) for where, n, i in items if i.part == "approach-jump" and i.tier == "high" and i.sets)
    for (session, number), what, write in (
        (sprint, "is a sprint without a load", "write the sprints done, such as 3 sets, or none"),
        (jump, "is a jump without a load", "touches such as 3.10 m, 3.12 m, or none"),
    ):
        told = run("log", block, session, "--effort", "7", "--item", str(number), "100 kg x 4")
        assert told.code == 1 and f"--item {number}:" in told.err and what in told.err and write in told.err
        assert files_in(coach) == before
        done = run("log", block, session, "--effort", "7", "--item", str(number), "none", "--dry-run")
        assert done.code == 0, done.err


def test_dry_run_shows_and_writes_nothing(run, block, coach) -> None:
    before = files_in(coach)
    outcome = run("log", block, "--as-planned", "--dry-run")
    assert outcome.code == 0 and "+  - session: w1s1" in outcome.out and files_in(coach) == before


def test_another_blocks_log_is_not_written_into(run, block, coach) -> None:
    run("log", block, "--as-planned")
    other = coach / "other.yaml"
    other.write_bytes(block.read_bytes())
    outcome = run("log", other, "--as-planned", "--log", coach / "block-log.yaml")
    assert outcome.code == 1 and "[other-block]" in outcome.err


def test_from_notes_and_a_sheet_all_or_nothing(run, block, coach) -> None:
    digest = plan_digest(load_block(block).require())[:8]
    body = f"{digest} w1s1 {first(block).date} as-planned / effort 7 / minutes 60 / pain left patellar-knee 1 3"
    note = f"jb1 {body} end {check_of(body)}"
    chat = coach / "chat.txt"
    chat.write_text(f"Ana: {note}\nAna: {note}\n")
    sheet = coach / "sets.csv"
    sheet.write_text("session,exercise,sets\nw1s9,1,3\n")
    before = files_in(coach)
    refused = run("log", block, "--from", chat, "--from", sheet)
    assert refused.code == 1 and f"{sheet}:2:1: [unknown-session]" in refused.err and files_in(coach) == before
    sheet.write_text("session,exercise,reps\nw1s1,1,5\n")
    assert run("log", block, "--from", chat, "--from", sheet).code == 0
    (entry,) = log_of(block).sessions
    every_set = (5,) * first(block).items[0].sets
    assert (entry.effort, entry.items[0].reps, entry.pain[0].worst) == (7, every_set, 3)


def test_a_note_of_another_block_is_a_finding(run, block, coach) -> None:
    body = f"00000000 w1s1 {first(block).date} as-planned / effort 7"
    (coach / "chat.txt").write_text(f"jb1 {body} end {check_of(body)}")
    outcome = run("log", block, "--from", coach / "chat.txt")
    assert outcome.code == 1 and "[other-block]" in outcome.err


def test_the_log_is_checked_like_every_file(run, block) -> None:
    run("log", block, "--as-planned")
    assert run("check", block.with_name("block-log.yaml")).code == 0
    block.rename(block.with_name("moved.yaml"))
    outcome = run("check", block.with_name("block-log.yaml"))
    assert outcome.code == 1 and "the block is not at block.yaml" in outcome.out


def test_a_load_of_two_dumbbells_is_asked_for_and_told_as_both_hands_together(answer, block) -> None:
    sessions = list(load_block(block).require().sessions)
    at = next(
        (s, n) for s in sessions for n, i in enumerate(s.items, 1) if i.sets and i.implement == "pair-of-dumbbells"
    )
    session, number = at
    outcome = answer(str(number), "10 each hand x 8", "7", "60", "", session=session.id, today=str(session.date))
    assert outcome.code == 0, outcome.err
    assert "(load in kg, both hands together)" in outcome.err and "20 kg × 8" in outcome.err
    assert "(10 kg in each hand)" in outcome.err


def test_a_hold_has_no_reps(run, block) -> None:
    sessions = list(load_block(block).require().sessions)
    session, number = next((s, n) for s in sessions for n, i in enumerate(s.items, 1) if i.hold_s and i.reps is None)
    told = run("log", block, session.id, "--item", number, "90 kg x 4")
    assert told.code == 1 and "and this has reps" in told.err and "check the item's number" in told.err
    assert run("log", block, session.id, "--item", number, "2 sets").code == 0


def test_a_morning_after_a_session_that_is_not_written_down_names_the_last_one_that_is(run, block) -> None:
    second = load_block(block).require().weeks[0].sessions[1]
    told = run("log", block, second.id, "--next-morning", "left knee 2")
    assert told.code == 2 and "no session is logged yet" in told.err
    run("log", block, "w1s1", "--as-planned", "--effort", 6)
    told = run("log", block, second.id, "--next-morning", "left knee 2")
    assert told.code == 2 and f"{second.id} is not logged" in told.err and "the last logged session is w1s1" in told.err


def blank(block: Path):
    """A session with a load to find, and the number of its item."""
    sessions = list(load_block(block).require().sessions)
    return next(
        (s, n)
        for s in sessions
        for n, item in enumerate(s.items, 1)
        if item.sets and item.implement not in (None, "free") and item.load_kg is None and item.reps_in_reserve
    )


def test_a_load_to_find_is_asked_for_though_all_was_as_planned(answer, block) -> None:
    session, number = blank(block)
    asked = f"{number}  {session.items[number - 1].name}: the load found, in kg"
    outcome = answer("", "24", *["-"] * 20, session=session.id, today=str(session.date), loads=True)
    assert asked in outcome.err
    entry = log_of(block).entry(session.id)
    assert entry is not None and [(one.item, one.load) for one in entry.items] == [(session.items[number - 1].id, 24)]


def test_by_options_a_load_that_was_not_told_is_said_in_one_note(run, block) -> None:
    session, number = blank(block)
    name = f"{number} {session.items[number - 1].name}"
    told = run("log", block, session.id, "--as-planned", "--effort", 6)
    assert told.code == 0 and told.err.count("no load was given for") == 1 and name in told.err
    told = run("log", block, session.id, "--as-planned", "--item", number, "24 kg")
    assert told.code == 0 and name not in told.err.partition("no load was given for")[2]
    assert "not told" not in run("log", block, session.id, "--missed", "ill").err


def test_a_text_in_free_words_is_told_where_it_can_go(run, coach) -> None:
    (coach / "chat.txt").write_text("Squats were easy today, 3 left each set", "utf-8")
    block = coach / "block.yaml"
    outcome = run("log", block, "--from", coach / "chat.txt")
    assert outcome.code == 1 and "[no-note]" in outcome.err and "free words" in outcome.err
    assert f"jumpblock log {block}" in outcome.err and not (coach / "block-log.yaml").exists()
