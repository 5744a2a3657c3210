"""The parts of the Brackengill Eleven as they came, where each sits, and what somebody states of them."""

from __future__ import annotations

from tools.examples.book import Book

WHITE_METAL = "poured and line-bored by the metaller"


def bring_in(book: Book) -> None:
    """All parts, put in their positions as found."""
    book.part("block-11-362", "Block", "block", serial="11-362", origin="owner's")
    book.part("crank-11", "Crank", "crank", origin="owner's, journals polished")
    for main, place in enumerate(("front", "centre", "rear"), start=1):
        book.part(f"main-{place}", f"Bearing, {place}, with cap", f"main.{main}.bearing", origin=WHITE_METAL)
    for cylinder in range(1, 5):
        book.part(f"conrod-{cylinder}", "Rod with cap", f"rod.{cylinder}", origin=WHITE_METAL)
        book.part(f"new-piston-{cylinder}", "Piston", f"piston.{cylinder}", origin="new, alloy")
        for ring in ("top", "second"):
            book.part(f"{ring}-ring-{cylinder}", f"{ring.capitalize()} ring", f"ring.{cylinder}.{ring}")
    book.part("head-11", "Head", "head", origin="owner's, faced")
    book.part("copper-gasket-1", "Head gasket", "head_gasket", origin="new")
    book.part("camshaft-11", "Camshaft", "camshaft", origin="owner's")
    book.part("skew-shaft-11", "Skew shaft", "skew_shaft", origin="owner's")
    _pump(book)


def _pump(book: Book) -> None:
    book.part("oil-pump-body-11", "Oil pump body", "pump.body", origin="owner's")
    book.part("oil-pump-cover-11", "Oil pump cover", "pump.cover", origin="owner's")
    book.part("oil-pump-gears-11", "Driver and idler", "pump.gears", origin="owner's")
    book.part("oil-pump-spindle-11", "Spindle", "pump.spindle", origin="new, ground")
    book.part("oil-pump-bush-11", "Bush", "pump.bush", origin="new, reamed in place")
    book.part("relief-plunger-11", "Relief plunger", "pump.relief_plunger", origin="owner's")
    book.part("relief-spring-11", "Relief spring, no shim", "pump.relief_spring", origin="owner's")


def state_sizes(book: Book) -> None:
    """What the notes and leaflets state; none of it is a reading."""
    book.stated("crank.stroke", "4.200 in", "0.001 in", "workshop notes, p. B-12")
    book.stated("head_gasket.thickness", "0.060 in", "0.001 in", "leaflet of the gasket's maker")
    book.stated("head_gasket.bore", "2.695 in", "0.005 in", "leaflet of the gasket's maker")
    for cylinder in range(1, 5):
        book.stated(f"piston.{cylinder}.crevice_volume", "0.4 cc", "0.1 cc", "leaflet of the pistons' maker")
