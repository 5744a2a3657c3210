"""A whole build written to a JSON file, and taken into another shop."""

from __future__ import annotations

import sys
from pathlib import Path

from fitwright.cli.build import read_text
from fitwright.cli.errors import OK
from fitwright.cli.files import written
from fitwright.cli.shop import opened
from fitwright.formats.carrying import arrival, build_in, carried
from fitwright.wiring import Shop


def export_build(shop: Shop, build: str, file: Path, *, readings: bool) -> int:
    """Write a build with everything of the shop that it rests on."""
    shop.bench(build)
    found = carried(shop.record, build, readings=readings)
    with written(file) as part:
        part.write_text(found.text, encoding="utf-8")
    sys.stdout.write(f"{found.entries} entries of {build}, and of the shop for it, are in {file}.\n")
    if found.photos:
        sys.stdout.write(
            f"{found.photos} photos are named in it but not contained; `fitwright backup` keeps them.\n"
        )
    return OK


def import_build(file: Path, data: Path, *, try_only: bool) -> int:
    """Take a build into a shop, which is made if it is not there yet."""
    found = build_in(read_text(file), file=str(file))
    if try_only and not data.is_dir():
        sys.stdout.write(f"{len(found.entries)} entries would be taken into a new shop.\n")
        return OK
    with opened(data, create=not try_only) as shop:
        arriving = arrival(found, shop.record)
        if try_only:
            sys.stdout.write(f"{len(arriving.new)} entries would be taken in, {arriving.already} are here.\n")
            return OK
        shop.take_in(arriving)
    here = f", {arriving.already} were here already" if arriving.already else ""
    sys.stdout.write(f"{found.build}: {len(arriving.new)} entries taken in from {file}{here}.\n")
    return OK
