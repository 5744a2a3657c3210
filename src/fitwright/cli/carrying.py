"""A whole build written to a JSON file, and taken into another shop."""

from __future__ import annotations

import sys
from pathlib import Path

from fitwright.bench.carrying import check_carrying, rested_on, without_readings
from fitwright.cli.build import read_text
from fitwright.cli.errors import OK
from fitwright.cli.files import written
from fitwright.cli.shop import opened
from fitwright.formats.build_json import BuildFile, BuildFileError, read_build, write_build
from fitwright.records.entry import Entry
from fitwright.records.kinds import BuildStarted, Photo, RevisionTakenOver
from fitwright.wiring import Shop

_NAMING_SHEETS = (BuildStarted.kind, RevisionTakenOver.kind)


def export_build(shop: Shop, build: str, file: Path, *, readings: bool) -> int:
    """Write a build with everything of the shop that it rests on."""
    shop.bench(build)
    entries = rested_on(shop.record.entries(build=build), build)
    if not readings:
        entries = without_readings(entries)
    sheets = {digest: shop.record.sheet_text(digest) for digest in _sheets(entries)}
    with written(file) as part:
        part.write_text(write_build(build, entries, sheets, shop.record.head()), encoding="utf-8")
    sys.stdout.write(f"{len(entries)} entries of {build}, and of the shop for it, are in {file}.\n")
    photos = sum(entry.kind == Photo.kind for entry in entries)
    if photos:
        sys.stdout.write(
            f"{photos} photos are named in it but not contained; `fitwright backup` keeps them.\n"
        )
    return OK


def import_build(file: Path, data: Path, *, try_only: bool) -> int:
    """Take a build into a shop, which is made if it is not there yet."""
    found = read_build(read_text(file), file=str(file))
    _check_sheets(found)
    if try_only and not data.is_dir():
        sys.stdout.write(f"{len(found.entries)} entries would be taken into a new shop.\n")
        return OK
    with opened(data, create=not try_only) as shop:
        already = check_carrying(found.build, found.entries, shop.record.entries())
        new = list(found.new_entries(without=already))
        if try_only:
            sys.stdout.write(f"{len(new)} entries would be taken in, {len(already)} are here.\n")
            return OK
        for text in found.sheets.values():
            shop.record.keep_sheet(text)
        # In one transaction: half a build would be refused as another one when the file comes again.
        if new:
            shop.write(new)
    here = f", {len(already)} were here already" if already else ""
    sys.stdout.write(f"{found.build}: {len(new)} entries taken in from {file}{here}.\n")
    return OK


def _sheets(entries: list[Entry]) -> list[str]:
    named = [entry.body["sheet"] for entry in entries if entry.kind in _NAMING_SHEETS]
    return list(dict.fromkeys(named))


def _check_sheets(found: BuildFile) -> None:
    """A sheet that cannot be read would leave the shop with a build that cannot be shown."""
    import hashlib

    from fitwright.formats.sheet import read_sheet

    for digest, text in found.sheets.items():
        if hashlib.sha256(text.encode("utf-8")).hexdigest() != digest:
            raise BuildFileError(
                found.file, f"sheet {digest[:12]}", "does not agree with its digest", "export the build again"
            )
        read_sheet(text, name=f"{found.file}, sheet {digest[:12]}")
    missing = [digest for digest in _sheets(list(found.entries)) if digest not in found.sheets]
    if missing:
        raise BuildFileError(found.file, "sheets", f"{missing[0][:12]} is missing", "export the build again")
