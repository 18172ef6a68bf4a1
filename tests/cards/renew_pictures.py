"""``python -m tests.cards.renew_pictures`` keeps the pages as they are drawn now: look at them before you commit."""

from __future__ import annotations

from . import looks
from .pictures import FOLDER, LOOKS, README, drawn, for_readme, look, save, save_one

if __name__ == "__main__":
    for path in FOLDER.rglob("*.png"):
        path.unlink()
    save(drawn(), FOLDER)
    for name, page in for_readme().items():
        save_one(page, README / f"{name}.png")
    for one in (*looks.CARDS, *looks.PAGES):
        save(look(one()), LOOKS, looks.named(one))
    print(f"written: {FOLDER}")
