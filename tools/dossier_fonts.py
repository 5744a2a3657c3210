"""The typefaces of the printed dossier from the complete IBM Plex (OFL): `python -m tools.dossier_fonts DIR`.

DIR holds the woff2 files of the npm packages @ibm/plex-sans and @ibm/plex-mono (`fonts/complete/woff2`). They
are only unpacked into TTF, which the typesetter reads; `covered.txt` says which characters Plex Sans has.
Needs fonttools and brotli, which nothing else here does: install them in an environment of their own.
"""

from __future__ import annotations

import sys
import unicodedata
from collections.abc import Iterable, Iterator
from importlib import import_module
from pathlib import Path
from typing import Any, Final

FACES: Final = ("IBMPlexSans-Regular", "IBMPlexSans-SemiBold", "IBMPlexMono-Regular")
TARGET: Final = Path(__file__).parents[1] / "src/fitwright/dossier/fonts"
_UNFIT: Final = frozenset({"Cc", "Cf", "Cn", "Co", "Cs", "Zl", "Zp"})
"""Control, unassigned, private and half characters, and those that nobody sees: PDF/A takes few of them."""
WIDTH: Final = 100


def main(source: Path) -> None:
    """Unpack the faces, and write down what they cover."""
    characters: list[frozenset[int]] = []
    for face in FACES:
        font: Any = import_module("fontTools.ttLib").TTFont(
            next(source.rglob(f"{face}.woff2")), recalcTimestamp=False
        )
        font.flavor = None
        font.save(TARGET / f"{face}.ttf")
        if "Sans" in face:  # the mono face falls back on it
            characters.append(frozenset(font.getBestCmap()))
    every = sorted(each for each in frozenset.intersection(*characters) if _fit(each))
    (TARGET / "covered.txt").write_text("\n".join(_lines(_runs(every))) + "\n", encoding="ascii")


def _fit(character: int) -> bool:
    return character >= 0x20 and unicodedata.category(chr(character)) not in _UNFIT


def _runs(characters: Iterable[int]) -> Iterator[str]:
    first = last = -2
    for each in [*characters, -2]:
        if each == last + 1:
            last = each
            continue
        if first >= 0:
            yield f"{first:04X}" if first == last else f"{first:04X}-{last:04X}"
        first = last = each


def _lines(words: Iterable[str]) -> Iterator[str]:
    line = ""
    for word in words:
        if line and len(line) + len(word) >= WIDTH:
            yield line
            line = ""
        line = f"{line} {word}".strip()
    yield line


if __name__ == "__main__":
    main(Path(sys.argv[1]))
