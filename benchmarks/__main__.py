"""Measure everything and print it: `python -m benchmarks`."""

from __future__ import annotations

import shutil
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path

from benchmarks import (
    accuracy,
    bearing_films,
    bearings,
    dossier,
    films_over_cycle,
    oil_circuit,
    over_http,
    pages,
    record,
    starting,
    verdicts,
)
from benchmarks.figure import Figure, table
from benchmarks.large_build import large_shop, readings_again
from fitwright.demo import prepare_demo
from tests.support.serving import served


def _all(folder: Path) -> Iterator[Figure]:
    """All figures, in a folder for what they need."""
    prepare_demo(folder / "demo")
    yield from starting.figures(folder / "demo")
    shop = large_shop(folder / "large")
    forms = readings_again(shop)
    shop.close()
    shutil.copytree(folder / "large", folder / "served")
    with served(folder / "served") as server:
        yield from pages.while_busy(server.address)
        yield from pages.figures(server.address)
        yield from over_http.figures(server.address, forms)
    shop = large_shop(folder / "again")
    yield from verdicts.figures(shop)  # reads on after the last step, as nobody does before a dossier
    shop.close()
    shop = large_shop(folder / "handed-over")
    yield from dossier.figures(shop)
    shop.close()
    yield from accuracy.figures()
    yield from bearing_films.figures()
    yield from bearings.figures()
    yield from oil_circuit.figures()
    yield from films_over_cycle.figures()
    yield from record.figures(folder / "record")


def main() -> None:
    """Print each figure when it is there, then the table."""
    found = []
    with tempfile.TemporaryDirectory(prefix="fitwright-speed-") as folder:
        for figure in _all(Path(folder)):
            sys.stderr.write(f"{figure.line()}\n")
            found.append(figure)
    sys.stdout.write(f"\n{table(found)}\n")


if __name__ == "__main__":
    main()
