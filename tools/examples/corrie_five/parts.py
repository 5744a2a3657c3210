"""The parts of the Corrie Five as they came, where each sits, and what their labels state."""

from __future__ import annotations

from tools.examples.book import Book

INLET_SHIMS = {
    "1": ("2.80", "2.80"), "2": ("2.75", "2.80"), "3": ("2.80", "2.85"), "4": ("2.85", "2.80"),
    "5": ("2.80", "2.75"),
}  # fmt: skip
EXHAUST_SHIMS = {
    "1": ("2.90", "2.85"), "2": ("2.95", "2.90"), "3": ("2.85", "2.90"), "4": ("2.90", "2.90"),
    "5": ("2.85", "2.90"),
}  # fmt: skip
"""Thickness etched on the shims of valves a and b of each cylinder [mm]."""


def bring_in(book: Book) -> None:
    """All parts, put in their positions as received."""
    _block_and_crank(book)
    _rods_and_pistons(book)
    _head(book)
    _pump(book)


def _block_and_crank(book: Book) -> None:
    back = "back from align-honing and plate-honing"
    book.part("block-c5-0117", "Block", "block", serial="C5-0117", origin=back)
    book.part("crank-4471", "Crank", "crank", serial="4471", origin="owner's, polished")
    for main in range(1, 7):
        for half in ("upper", "lower"):
            code = f"main-shell-{main}{half[0]}"
            book.part(code, f"Main shell, {half}", f"main.{main}.shell_{half}", origin="new, box 3, standard")
    book.part("flywheel-1", "Flywheel", "flywheel", origin="owner's")


def _rods_and_pistons(book: Book) -> None:
    for cylinder in range(1, 6):
        book.part(
            f"rod-{cylinder}", "Rod", f"rod.{cylinder}", serial=f"R{cylinder}17", origin="new set of five"
        )
        for half in ("upper", "lower"):
            code = f"rod-shell-{cylinder}{half[0]}"
            book.part(code, f"Rod shell, {half}", f"rod.{cylinder}.shell_{half}", origin="new, standard")
        book.part(
            f"bush-{cylinder}", "Small-end bush", f"rod.{cylinder}.bush", origin="fitted by the rods' maker"
        )
        book.part(f"piston-{cylinder}", "Piston", f"piston.{cylinder}", origin="new, forged")
        book.part(f"pin-{cylinder}", "Piston pin", f"piston_pin.{cylinder}", origin="new, with its piston")
        for ring in ("top", "second", "oil"):
            book.part(f"ring-{cylinder}-{ring}", f"{ring.capitalize()} ring", f"ring.{cylinder}.{ring}")


def _head(book: Book) -> None:
    book.part("head-c5-2290", "Head", "head", serial="C5-2290", origin="back from the head shop, seats cut")
    book.part("gasket-1", "Head gasket 1.10", "head_gasket", origin="new")
    for side in ("inlet", "exhaust"):
        book.part(f"camshaft-{side}", f"Camshaft, {side}", f"camshaft.{side}", origin="owner's")
    for side, shims in (("inlet", INLET_SHIMS), ("exhaust", EXHAUST_SHIMS)):
        for cylinder, pair in shims.items():
            for letter, thickness in zip("ab", pair, strict=True):
                position = f"valve.{cylinder}.{side}.{letter}.shim"
                book.part(shim_code(cylinder, side, letter), f"Shim {thickness}", position)


def shim_code(cylinder: str, side: str, letter: str) -> str:
    """Code of the shim that came in a valve: `shim-3I-b`."""
    return f"shim-{cylinder}{side[0].upper()}-{letter}"


def _pump(book: Book) -> None:
    book.part("pump-body-1", "Oil pump body", "pump.body", origin="owner's")
    book.part("pump-rotors-1", "Rotor set, face marks matched", "pump.rotors", origin="owner's")
    book.part("pump-dowels-1", "Dowels 8 mm, straight", "pump.dowels", origin="owner's")
    book.part("plunger-1", "Relief plunger", "pump.relief_plunger", origin="owner's")
    book.part("relief-spring-1", "Relief spring, no shim", "pump.relief_spring", origin="owner's")
    book.part("pickup-1", "Oil pickup", "pickup", origin="owner's")
    book.part("sump-1", "Sump, baffled", "sump", origin="owner's")
    book.part("rear-seal-carrier-1", "Rear seal carrier", "rear_seal_carrier", origin="owner's")
    book.part("turbocharger-1", "Turbocharger", "turbocharger", origin="exchange unit, sealed")


def state_sizes(book: Book) -> None:
    """What labels and leaflets state; none of it is a reading."""
    for main in range(1, 7):
        for half in ("upper", "lower"):
            book.stated(f"main.{main}.shell_{half}.wall", "2.2325 mm", "0.002 mm", "box label, main shells")
    for cylinder in range(1, 6):
        for half in ("upper", "lower"):
            book.stated(f"rod.{cylinder}.shell_{half}.wall", "1.7250 mm", "0.002 mm", "box label, rod shells")
        book.stated(
            f"piston.{cylinder}.compression_height", "31.50 mm", "0.02 mm", "leaflet of the piston's maker"
        )
        book.stated(f"piston.{cylinder}.dish_volume", "9.6 cc", "0.1 cc", "leaflet of the piston's maker")
        book.stated(f"piston.{cylinder}.crevice_volume", "0.5 cc", "0.1 cc", "leaflet of the piston's maker")
    book.stated("crank.stroke", "84.00 mm", "0.02 mm", "works manual, p. A-12")
    book.stated("head_gasket.thickness", "1.10 mm", "0.02 mm", "leaflet of the gasket's maker, sheet 4")
    book.stated("head_gasket.bore", "84.5 mm", "0.1 mm", "leaflet of the gasket's maker, sheet 4")
    for side, shims in (("inlet", INLET_SHIMS), ("exhaust", EXHAUST_SHIMS)):
        for number, pair in shims.items():
            for letter, thickness in zip("ab", pair, strict=True):
                state_shim(book, f"valve.{number}.{side}.{letter}.shim", thickness)


def state_shim(book: Book, position: str, thickness: str) -> None:
    """The thickness etched on a shim."""
    book.stated(f"{position}.thickness", f"{thickness} mm", "0.005 mm", "etched on the shim")
