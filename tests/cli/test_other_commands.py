"""``start``, ``gap``, ``cards`` and ``rules``."""

from __future__ import annotations

import re
from io import BytesIO

import pytest
from pypdf import PdfReader

from planner.files.locate import packaged
from planner.rules.registry import all_rules
from tests.cli.conftest import athlete, change, files_in, set_first


def test_start_copies_everything_and_says_what_to_do_next(run, tmp_path):
    outcome = run("start", tmp_path / "coach")
    assert outcome.code == 0
    assert "jumpblock new" in outcome.out and "jumpblock plan" in outcome.out and outcome.err == ""
    for name in ("exercise_library", "templates"):
        shipped = {path.name: path.read_bytes() for path in packaged(name).rglob("*.yaml")}
        copied = {path.name: path.read_bytes() for path in (tmp_path / "coach" / name).rglob("*.yaml")}
        assert copied.keys() == shipped.keys()
        for file, content in copied.items():
            # Some open with one line more, by which editors find the schema.
            first, _, rest = content.partition(b"\n")
            assert (rest if first.startswith(b"# yaml-language-server:") else content) == shipped[file], file
    assert not [name for name in files_in(tmp_path / "coach") if name.startswith(".")]


def test_start_overwrites_nothing(run, tmp_path):
    (tmp_path / "templates").mkdir()
    outcome = run("start", tmp_path)
    assert outcome.code == 1 and "[already-there]" in outcome.err
    assert files_in(tmp_path) == ["templates"]
    (tmp_path / "file").write_text("words")
    assert run("start", tmp_path / "file").code == 1


def test_start_leaves_nothing_behind_where_it_cannot_finish(run, tmp_path, monkeypatch):
    def full(*_args, **_options):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("shutil.copytree", full)
    outcome = run("start", tmp_path / "deep" / "coach")
    assert outcome.code == 1 and "No space left on device" in outcome.err
    assert files_in(tmp_path) == []


def test_gap_as_text_and_as_data(run, planned):
    text = run("gap", athlete(planned, "adult-one-leg-jumper"))
    assert text.code == 0 and text.out.startswith("FORCE GAP\n")
    assert "sets a week" in text.out, "the chain ends in the template's sets"
    assert len(run("gap", athlete(planned, "adult-one-leg-jumper"), "--full").out) > len(text.out)
    data = run("gap", athlete(planned, "adult-one-leg-jumper"), "--json").json
    assert data["gap"]["mean_ground_force_N"] == pytest.approx(
        data["target"]["mean_ground_force_N"] - data["now"]["mean_ground_force_N"]
    )
    assert "mean_ground_force_N_se" in data["now"]
    assert {line["quality"] for line in data["qualities"]} >= {"calf-ankle", "speed-exposure"}


def test_gap_names_the_next_command_but_no_plan_over_a_block_that_is_there(run, coach):
    own = athlete(coach)
    block = own.with_name(f"{own.stem}-block.yaml")
    assert run("gap", own).err.rstrip().endswith(f"Next: jumpblock plan {own} -o {block}")
    block.write_text("a block that is trained now", "utf-8")
    assert "Next:" not in run("gap", own).err


def test_gap_of_an_athlete_in_pain_is_still_told(run, coach):
    change(athlete(coach), "    pain: 0", "    pain: 8")
    assert run("gap", athlete(coach)).code == 0


def test_cards_of_a_block_of_a_week_and_of_a_session(run, planned, tmp_path):
    whole, one = tmp_path / "new" / "cards.pdf", tmp_path / "one.pdf"
    assert run("cards", planned / "block.yaml", "-o", whole).code == 0
    assert run("cards", planned / "block.yaml", "-o", one, "--week", "2", "--session", "1", "--paper", "a5").code == 0
    assert len(PdfReader(whole).pages) > len(PdfReader(one).pages) >= 1
    assert "Petra Solano" in PdfReader(one).pages[0].extract_text()


def test_cards_through_a_pipe_are_a_pdf_and_nothing_else(run, planned):
    outcome = run("cards", planned / "block.yaml", "-o", "-", "--week", "1")
    assert outcome.raw.startswith(b"%PDF-")
    assert PdfReader(BytesIO(outcome.raw)).pages


def test_cards_replace_only_a_pdf(run, coach):
    before = (coach / "block.yaml").read_bytes()
    outcome = run("cards", coach / "block.yaml", "-o", coach / "block.yaml")
    assert outcome.code == 1 and "[not-a-pdf]" in outcome.err
    assert (coach / "block.yaml").read_bytes() == before


def test_cards_call_no_edited_block_proved(run, coach, tmp_path):
    set_first(coach / "block.yaml", "minutes", 199)
    outcome = run("cards", coach / "block.yaml", "-o", tmp_path / "cards.pdf")
    assert outcome.code == 0 and "edited by hand" in outcome.err
    text = " ".join(PdfReader(tmp_path / "cards.pdf").pages[0].extract_text().split())
    text += " ".join(PdfReader(tmp_path / "cards.pdf").pages[1].extract_text().split())
    assert "Proved over" not in text and "nothing in it is proved" in text


def test_a_week_that_is_not_there_is_a_finding_and_writes_nothing(run, planned, tmp_path):
    outcome = run("cards", planned / "block.yaml", "-o", tmp_path / "cards.pdf", "--week", "9")
    assert outcome.code == 1 and "[no-week]" in outcome.err
    assert files_in(tmp_path) == []


def test_the_manual_holds_every_rule(run):
    text, data = run("rules").out, run("rules", "--json").json
    assert [rule["id"] for rule in data] == [rule.id for rule in all_rules()]
    assert all(f"{rule.id}: {rule.title}" in text for rule in all_rules())
    fields = {"id", "title", "sentence", "template", "figures", "source", "unit", "hard", "price"}
    assert all(set(rule) == fields and rule["source"] for rule in data)
    assert all(bool(rule["price"]) is not rule["hard"] for rule in data)
    one = run("rules", "growth")
    assert one.out.startswith("growth: ") and one.out.count("\n") < 15
    assert "did you mean 'growth'?" in run("rules", "grwth").err
    assert run("rules", "grwth", "--json").codes == ["unknown-rule"]


@pytest.mark.parametrize("template", ["eight-week", "in-season-four-week", "twelve-week", "youth-eight-week"])
def test_the_manual_has_each_templates_numbers(run, template):
    outcome = run("rules", "--template", template)
    assert outcome.code == 0 and not outcome.err
    assert not re.search(r"[{}]|None|\bnan\b|\binf\b| {3,}[;,.]", outcome.out)
    assert {rule["template"] for rule in run("rules", "--template", template, "--json").json} == {template}


def test_the_manual_follows_a_template_of_the_coachs_own(run, coach, monkeypatch):
    own = coach / "templates/blocks/eight-week.yaml"
    change(coach / "templates/limits/standard.yaml", "contacts_week: 110", "contacts_week: 97")
    assert "At most 97 contacts a week" in run("rules", "youth-contacts", "--template", own).out
    monkeypatch.chdir(coach)
    assert "At most 97 contacts a week" in run("rules", "youth-contacts").out


def test_a_template_that_is_not_there_is_a_finding(run):
    assert "did you mean 'eight-week'?" in run("rules", "--template", "eight-wek").err
    outcome = run("rules", "--template", "eight-wek", "--json")
    assert outcome.code == 1 and outcome.codes == ["unknown-template"]
    assert run("rules", "growth", "--template", "no-such.yaml").code == 1
