"""Write the records of the examples anew: `python -m tools.examples`."""

from __future__ import annotations

import sys

from tools.examples.making import WRITERS, record_path, record_text


def main() -> None:
    """Write every record and say how many entries it has."""
    for name in WRITERS:
        text = record_text(name)
        record_path(name).write_text(text, encoding="utf-8", newline="\n")
        sys.stdout.write(f"{name}: {text.count(chr(10))} entries\n")


if __name__ == "__main__":
    main()
