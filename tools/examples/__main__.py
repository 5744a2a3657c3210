"""Write the examples anew: `python -m tools.examples`; pictures that are there stay as they are."""

from __future__ import annotations

import sys

from tools.examples.making import WRITERS, draw_photos, record_path, record_text


def main() -> None:
    """Draw what is not drawn yet, write every record, and say how much there is."""
    for name in WRITERS:
        drawn = draw_photos(name)
        text = record_text(name)
        record_path(name).write_text(text, encoding="utf-8", newline="\n")
        sys.stdout.write(f"{name}: {text.count(chr(10))} entries, {drawn} pictures drawn\n")


if __name__ == "__main__":
    main()
