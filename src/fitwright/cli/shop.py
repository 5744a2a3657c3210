"""Where a shop lives, and opening it for one command."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from cyclopts import Parameter

from fitwright.cli.errors import UsageError

if TYPE_CHECKING:
    from fitwright.units.families import Family
    from fitwright.wiring import Shop

DEFAULT_DATA = Path("~/fitwright")

Data = Annotated[
    Path,
    Parameter(name="--data", env_var="FITWRIGHT_DATA", help="Folder in which the shop lives."),
]


@contextmanager
def opened(data: Path, *, create: bool = False) -> Iterator[Shop]:
    """The shop in a folder, closed again afterwards; a missing one is said plainly."""
    from fitwright.wiring import open_shop

    data = data.expanduser()
    if not create and not data.is_dir():
        raise UsageError(
            f"No shop in {data}: start one with `fitwright build start`, or name its folder with --data."
        )
    shop = open_shop(data, create=create)
    sys.stderr.writelines(f"{trouble}\n" for trouble in shop.troubles)
    try:
        yield shop
    finally:
        shop.close()


def family_of(shop: Shop, build: str, units: str | None) -> Family:
    """The units to show: those asked for, else those of the build's sheet."""
    wanted = units or shop.bench(build).sheet.engine.unit_family
    if wanted not in ("mm", "inch"):
        raise UsageError(f'No units "{wanted}": say mm or inch.')
    return "inch" if wanted == "inch" else "mm"
