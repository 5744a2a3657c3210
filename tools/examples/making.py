"""From the tables of readings and of work to the files of an example."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable, Mapping
from pathlib import Path

from fitwright.examples import EXAMPLES, PHOTO, photo_files, sheet_text
from fitwright.formats.sheet import read_sheet
from fitwright.model.sheet import Sheet
from tools.examples.book import Book
from tools.examples.brackengill_eleven import assembly as brackengill_assembly
from tools.examples.brackengill_eleven.record import write as write_brackengill_eleven
from tools.examples.corrie_five.record import write as write_corrie_five

WRITERS: dict[str, Callable[[Sheet, Mapping[str, str]], Book]] = {
    "corrie-five": write_corrie_five,
    "brackengill-eleven": write_brackengill_eleven,
}


def record_text(name: str) -> str:
    """The text of an example's record: one entry a line, in order."""
    lines = (json.dumps(entry, ensure_ascii=False) for entry in _written(name).entries)
    return "".join(f"{line}\n" for line in lines)


def record_path(name: str) -> Path:
    """Where an example's record is kept in this checkout."""
    return _folder(name) / "record.jsonl"


def draw_photos(name: str) -> int:
    """Draw the pictures that an example's record wants and that are not there yet; how many."""
    from tools.examples.sketches import sketch

    sheet = _sheet(name)
    wanted = {
        _folder(name) / "photos" / f"{step}.{photo.id}{PHOTO}": (sheet.steps[step], photo)
        for step in (brackengill_assembly.PHOTOGRAPHED if name == "brackengill-eleven" else sheet.steps)
        for photo in sheet.steps[step].photos
    }
    missing = [path for path in wanted if not path.exists()]
    for path in missing:
        path.parent.mkdir(exist_ok=True)
        path.write_bytes(sketch(*wanted[path]))
    return len(missing)


def _written(name: str) -> Book:
    photos = {subject: hashlib.sha256(each).hexdigest() for subject, each in photo_files(name).items()}
    return WRITERS[name](_sheet(name), photos)


def _sheet(name: str) -> Sheet:
    return read_sheet(sheet_text(name), name=f"{name}/sheet.toml")


def _folder(name: str) -> Path:
    root = Path(__file__).resolve().parents[2]
    return root / "src" / "fitwright" / "examples" / EXAMPLES[name].folder
