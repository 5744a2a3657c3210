"""From the tables of readings to the text of a record file."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

from fitwright.examples import EXAMPLES, sheet_text
from fitwright.formats.sheet import read_sheet
from fitwright.model.sheet import Sheet
from tools.examples.book import Book
from tools.examples.brackengill_eleven.record import write as write_brackengill_eleven
from tools.examples.corrie_five.record import write as write_corrie_five

WRITERS: dict[str, Callable[[Sheet], Book]] = {
    "corrie-five": write_corrie_five,
    "brackengill-eleven": write_brackengill_eleven,
}


def record_text(name: str) -> str:
    """The text of an example's record: one entry a line, in order."""
    sheet = read_sheet(sheet_text(name), name=f"{name}/sheet.toml")
    lines = (json.dumps(entry, ensure_ascii=False) for entry in WRITERS[name](sheet).entries)
    return "".join(f"{line}\n" for line in lines)


def record_path(name: str) -> Path:
    """Where an example's record is kept in this checkout."""
    root = Path(__file__).resolve().parents[2]
    return root / "src" / "fitwright" / "examples" / EXAMPLES[name].folder / "record.jsonl"
