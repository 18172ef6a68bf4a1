"""Where a command writes: folders that are made, and taken away again where nothing came of it."""

from __future__ import annotations

import shutil

import pytest

from planner.files import atomic
from planner.jobs import start_folder
from tests.cli.conftest import files_in


def test_a_folder_named_as_output_is_not_taken_for_a_file(run, coach, tmp_path) -> None:
    outcome = run("cards", coach / "block.yaml", "-o", f"{tmp_path}/new/")
    assert outcome.code == 1 and "names a folder" in outcome.err
    assert not (tmp_path / "new").exists()


@pytest.mark.parametrize("failing", [OSError(28, "No space left on device"), KeyboardInterrupt()])
def test_no_empty_folder_is_left_where_nothing_could_be_written(run, coach, tmp_path, monkeypatch, failing) -> None:
    def refuse(*_: object) -> None:
        raise failing

    monkeypatch.setattr(atomic.os, "replace", refuse)
    assert run("cards", coach / "block.yaml", "-o", tmp_path / "a/b/c.pdf").code in (1, 130)
    assert not (tmp_path / "a").exists()


def killed_while_moving(monkeypatch, folder, moved: int) -> None:
    """``start`` as a power cut leaves it: so many parts moved into place, and nothing tidied."""

    class PowerCut(BaseException):
        pass

    rename, done = start_folder.Path.rename, []

    def cut(path, target):
        if len(done) > moved:  # the first rename says that all is there
            raise PowerCut
        done.append(rename(path, target))

    def cut_at_last(path):
        raise PowerCut

    with monkeypatch.context() as patch, pytest.raises(PowerCut):
        patch.setattr(start_folder.Path, "rename", cut)
        patch.setattr(start_folder.Path, "rmdir", cut_at_last)
        patch.setattr(shutil, "rmtree", lambda *_, **__: None)
        start_folder.start_folder(folder)


@pytest.mark.parametrize("moved", [0, 1, 2, 3])
@pytest.mark.parametrize("there", [False, True])
def test_a_start_that_was_killed_is_finished_by_the_next(run, tmp_path, monkeypatch, moved, there) -> None:
    whole, folder = tmp_path / "whole", tmp_path / "coach"
    assert run("start", whole).code == 0
    if there:
        folder.mkdir()
        (folder / "mine.txt").write_text("kept")
    killed_while_moving(monkeypatch, folder, moved)
    assert run("start", folder).code == 0
    assert [name for name in files_in(folder) if name != "mine.txt"] == files_in(whole)
    assert run("start", folder).code == 1


def test_an_interrupted_start_leaves_what_was_there(run, tmp_path, monkeypatch) -> None:
    def interrupted(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(start_folder, "write_schemas", interrupted)
    assert run("start", tmp_path / "new/coach").code == 130
    assert run("start", tmp_path).code == 130
    assert files_in(tmp_path) == []
