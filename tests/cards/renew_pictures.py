"""``python -m tests.cards.renew_pictures`` keeps the pages as they are drawn now: look at them before you commit."""

from __future__ import annotations

from . import looks
from .pictures import FOLDER, LOOKS, drawn, look, save

if __name__ == "__main__":
    for path in FOLDER.rglob("*.png"):
        path.unlink()
    save(drawn(), FOLDER)
    for one in (*looks.CARDS, *looks.PAGES):
        save(look(one()), LOOKS, looks.named(one))
    print(f"written: {FOLDER}")
