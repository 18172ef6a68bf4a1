"""Parts of a block that other files have too: a file it was made from, points of each leg."""

from __future__ import annotations

from pathlib import PurePosixPath, PureWindowsPath

from pydantic import Field, model_validator

from planner.domain.base import Model
from planner.domain.completeness import out_of_sense

PACKAGED_PREFIX = "(packaged)/"  # of what came with the planner, which has no place of its own


class Reference(Model):
    """A file the block was made from."""

    path: str = Field(description="Path from the block's own folder, or from your home folder after ~/.")
    sha256: str = Field(description="Digest of the file as it was read.")

    @model_validator(mode="after")
    def _stays_where_it_may(self) -> Reference:
        leaves_package = self.path.startswith(PACKAGED_PREFIX) and ".." in self.path.split("/")
        if PurePosixPath(self.path).is_absolute() or PureWindowsPath(self.path).drive or leaves_package:
            what = f"'{self.path}' is not relative to the block's folder"
            raise out_of_sense(("path",), what, "write the way from this file's folder, such as ../athletes/ana.yaml")
        return self


class LegPoints(Model):
    left: float = Field(description="Points of the left leg.")
    right: float = Field(description="Points of the right leg.")
