"""People, gauges, calibrations, blades and pins of Hollin Bank Restorations.

Codes differ from those of the other example's shop, so that both records can live in one shop.
"""

from __future__ import annotations

from fitwright.records.kinds import (
    BladeOnShelf,
    BladeSet,
    Body,
    Calibration,
    Instrument,
    Person,
)
from tools.examples.amounts import si

TENTH = si("0.0001 in")

PEOPLE: tuple[Body, ...] = (
    Person(code="restorer", name="Restorer", role="assembles", drag=3e-6, drag_uncertainty=2e-6),
    Person(code="improver", name="Improver", role="measures and types", drag=5e-6, drag_uncertainty=2e-6),
)


def micrometer(code: str, low: int, high: int) -> Instrument:
    """An outside micrometer to a tenth of a thou; what its screw adds stands in its calibration."""
    return Instrument(
        code=code,
        title=f"Micrometer {low} to {high} in",
        type="outside micrometer",
        unit="in",
        resolution=TENTH,
        repeatability=si("0.05 thou"),
        range_low=si(f"{low} in"),
        range_high=si(f"{high} in"),
        zero_limit=si("0.2 thou"),
    )


def dial(code: str, title: str, kind: str, resolution: str, repeatability: str) -> Instrument:
    """An indicator, read in thou."""
    return Instrument(
        code=code,
        title=title,
        type=kind,
        unit="thou",
        resolution=si(resolution),
        repeatability=si(repeatability),
    )


GAUGES: tuple[Body, ...] = (
    micrometer("K1", 0, 1),
    micrometer("K2", 1, 2),
    micrometer("K3", 2, 3),
    Instrument(
        code="G1",
        title="Bore gauge 1.4 to 6 in",
        type="bore gauge",
        unit="in",
        resolution=TENTH,
        repeatability=si("0.055 thou"),
        transfer_uncertainty=si("0.06 thou"),
        comparison=True,
        range_low=si("1.4 in"),
        range_high=si("6 in"),
    ),
    Instrument(
        code="G2",
        title="Telescopic gauge 1/2 in",
        type="telescopic gauge",
        unit="in",
        resolution=TENTH,
        repeatability=si("0.10 thou"),
        transfer_uncertainty=si("0.15 thou"),
        comparison=True,
        range_low=si("0.45 in"),
        range_high=si("0.75 in"),
        note="Read off in K1.",
    ),
    Instrument(
        code="K4",
        title="Depth micrometer 0 to 1 in",
        type="depth micrometer",
        unit="in",
        resolution=TENTH,
        repeatability=si("0.08 thou"),
        range_low=0.0,
        range_high=si("1 in"),
        zero_limit=si("0.3 thou"),
    ),
    dial("V1", "Dial indicator to .0005 in", "dial indicator", "0.5 thou", "0.15 thou"),
    dial("V2", "Test indicator to .0001 in", "test indicator", "0.1 thou", "0.05 thou"),
    Instrument(
        code="A1",
        title="Spring balance on a 12 in arm",
        type="spring balance",
        unit="lbf ft",
        resolution=si("0.5 lbf ft"),
        repeatability=si("0.3 lbf ft"),
        calibration_uncertainty=si("0.3 lbf ft"),
        typical=True,
    ),
    Instrument(
        code="A2",
        title="Spring tester",
        type="spring tester",
        unit="lbf/in",
        resolution=si("0.5 lbf/in"),
        repeatability=si("0.3 lbf/in"),
        calibration_uncertainty=si("0.3 lbf/in"),
        typical=True,
    ),
    Instrument(
        code="A3",
        title="Test gauge 0 to 100 psi on the hand pump",
        type="pressure gauge",
        unit="psi",
        resolution=si("1 psi"),
        repeatability=si("0.4 psi"),
        range_low=0.0,
        range_high=si("100 psi"),
    ),
    Instrument(
        code="A4",
        title="Burette 100 cc with plate",
        type="burette",
        unit="cc",
        resolution=1e-7,
        repeatability=1e-7,
        calibration_uncertainty=1e-7,
        typical=True,
    ),
)


def calibration(instrument: str, uncertainty: str, certificate: str) -> Calibration:
    """A calibration with its certificate."""
    return Calibration(
        code=f"C-{instrument}",
        instrument=instrument,
        standard_uncertainty=si(uncertainty),
        date="2025-02-18",
        certificate=certificate,
    )


CALIBRATIONS: tuple[Body, ...] = (
    calibration("K1", "0.05 thou", "HB 88"),
    calibration("K2", "0.05 thou", "HB 89"),
    calibration("K3", "0.05 thou", "HB 90"),
    calibration("K4", "0.10 thou", "HB 91"),
    calibration("V2", "0.04 thou", "HB 93"),
    calibration("A3", "0.4 psi", "HB 97"),
    Calibration(
        code="C-V1",
        instrument="V1",
        standard_uncertainty=si("0.15 thou"),
        never=True,
        reason="never calibrated; typical of a dial to .0005 in",
    ),
)

INCH_26 = (".0015", ".002", ".0025", *(f".{thou:03d}" for thou in range(3, 26)))
"""Markings of the inch set."""

MEASURED_OVER = {".002": "0.02", ".005": "0.03", ".010": "0.05"}
"""Thou by which a blade measured over its marking in K1; the others measured true."""


def blade(marking: str) -> BladeOnShelf:
    """A blade of the inch set, measured in K1 when the set was bought."""
    over = MEASURED_OVER.get(marking, "0")
    return BladeOnShelf(
        marking=marking,
        thickness=si(f"{marking} in") + si(f"{over} thou"),
        standard_uncertainty=si("0.05 thou"),
        measured=True,
    )


def pin(marking: str) -> BladeOnShelf:
    """A ground pin with its certified size."""
    return BladeOnShelf(
        marking=marking, thickness=si(f"{marking} in"), standard_uncertainty=si("0.01 thou"), measured=True
    )


BLADE_SETS: tuple[Body, ...] = (
    BladeSet(code="E1", title="Inch set of 26, measured", blades=tuple(blade(each) for each in INCH_26)),
    BladeSet(
        code="E2",
        title="Ground pins about 1/2 in, one tenth apart",
        blades=tuple(pin(f".{tenths}") for tenths in range(4995, 5009)),
        plugs=True,
    ),
)

SHOP: tuple[Body, ...] = (*PEOPLE, *GAUGES, *CALIBRATIONS, *BLADE_SETS)
