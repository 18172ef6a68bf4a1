"""A coach's folder with the adult demo as ``milo.yaml`` and its block, as README's commands have them."""

from __future__ import annotations

from pathlib import Path

from planner.files.digest import plan_digest
from planner.files.dump import block_to_yaml
from planner.jobs.block_references import reference
from planner.jobs.sources import Wanted, read_sources
from tests.demos.three_blocks import run
from tests.solve.demos import ROOT, solved


def adult_folder(coach: Path) -> Path:
    """The folder, made new; the block is the one that all tests share, with its references set to this folder."""
    run("start", coach)
    milo = coach / "milo.yaml"
    milo.write_bytes((ROOT / "templates/athletes/adult-one-leg-jumper.yaml").read_bytes())
    sources = read_sources(Wanted(str(milo)))
    places = {name: reference(at, getattr(sources, name).sha256, coach) for name, at in sources.at._asdict().items()}
    block = solved("adult").block.model_copy(update=places)
    block = block.model_copy(update={"plan_sha256": plan_digest(block)})
    (coach / "milo-block.yaml").write_text(block_to_yaml(block), "utf-8")
    return coach
