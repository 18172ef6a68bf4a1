"""What is asked of a library as a whole: by its own review file, else by the one of the shipped library."""

from __future__ import annotations

from functools import cache
from typing import cast

from planner.domain.library import Library
from planner.domain.library_review import LibraryReview
from planner.files.document import Loaded
from planner.files.load import load_file
from planner.files.locate import LIBRARY, packaged

FILE_NAME = "review.yaml"


def review_of(library: Library) -> LibraryReview:
    return library.review or _shipped_review()


@cache
def _shipped_review() -> LibraryReview:
    loaded = load_file(packaged(LIBRARY) / FILE_NAME, f"{LIBRARY}/{FILE_NAME}", ("library-review/1",))
    return cast("Loaded[LibraryReview]", loaded).require()
