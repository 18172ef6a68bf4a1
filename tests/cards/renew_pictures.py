"""``python -m tests.cards.renew_pictures`` keeps the pages as they are drawn now: look at them before you commit."""

from __future__ import annotations

from .pictures import FOLDER, drawn, save

if __name__ == "__main__":
    for path in FOLDER.glob("*.png"):
        path.unlink()
    save(drawn(), FOLDER)
    print(f"written: {FOLDER}")
