"""People, gauges, calibrations and blades of the Tarnside Engine Room."""

from __future__ import annotations

from fitwright.records.kinds import (
    BladeOnShelf,
    BladeSet,
    Body,
    Calibration,
    Instrument,
    Person,
    ShopSetting,
)
from tools.examples.amounts import si

PEOPLE: tuple[Body, ...] = (
    Person(code="builder", name="Builder", role="assembles", drag=3e-6, drag_uncertainty=2e-6),
    Person(code="apprentice", name="Apprentice", role="measures and types", drag=4e-6, drag_uncertainty=2e-6),
)

SHOP_SETTINGS: tuple[Body, ...] = (ShopSetting(name="name", value="Tarnside Engine Room"),)


def micrometer(code: str, low: int, high: int) -> Instrument:
    """An outside micrometer; what its screw adds stands in its calibration."""
    return Instrument(
        code=code,
        title=f"Micrometer {low} to {high} mm",
        type="outside micrometer",
        unit="mm",
        resolution=1e-6,
        repeatability=1.0e-6,
        range_low=low * 1e-3,
        range_high=high * 1e-3,
        zero_limit=4e-6,
    )


def bore_gauge(code: str, title: str, low: float, high: float) -> Instrument:
    """A two-point bore gauge, set in a micrometer."""
    return Instrument(
        code=code,
        title=title,
        type="bore gauge",
        unit="mm",
        resolution=1e-6,
        repeatability=1.1e-6,
        transfer_uncertainty=1.2e-6,
        comparison=True,
        range_low=low * 1e-3,
        range_high=high * 1e-3,
    )


MICROMETERS = (
    micrometer("M1", 0, 25),
    micrometer("M2", 25, 50),
    micrometer("M3", 50, 75),
    micrometer("M4", 75, 100),
)

BORE_GAUGES = (
    bore_gauge("B1", "Bore gauge 35 to 160 mm", 35.0, 160.0),
    bore_gauge("B2", "Bore gauge 18 to 35 mm", 18.0, 35.0),
    bore_gauge("B3", "Bore gauge 10 to 18 mm", 10.0, 18.0),
)

OTHER_GAUGES = (
    Instrument(
        code="M6", title="Ball micrometer 0 to 25 mm", type="ball micrometer", unit="mm",
        resolution=1e-6, repeatability=1.0e-6, range_low=0.0, range_high=25e-3, zero_limit=4e-6,
    ),
    Instrument(
        code="D1", title="Depth micrometer 0 to 25 mm", type="depth micrometer", unit="mm",
        resolution=1e-6, repeatability=1.0e-6, range_low=0.0, range_high=25e-3, zero_limit=4e-6,
    ),
    Instrument(
        code="D2", title="Depth gauge for clay", type="depth micrometer", unit="mm",
        resolution=0.1e-3, repeatability=0.1e-3, calibration_uncertainty=0.02e-3, typical=True,
        note="Repeatability is that of pressing the clay, found on five trials.",
    ),
    Instrument(
        code="T1", title="Telescopic gauge 32 to 54 mm", type="telescopic gauge", unit="mm",
        resolution=1e-6, repeatability=4.0e-6, transfer_uncertainty=3.0e-6, comparison=True,
        range_low=32e-3, range_high=54e-3, note="Read off in M2.",
    ),
    Instrument(
        code="J1", title="Dial indicator 10 mm", type="dial indicator", unit="mm",
        resolution=0.01e-3, repeatability=3.0e-6, range_low=0.0, range_high=10e-3,
    ),
    Instrument(
        code="J2", title="Rod length fixture with dial", type="dial indicator", unit="mm",
        resolution=0.01e-3, repeatability=3.0e-6, transfer_uncertainty=2.0e-6, comparison=True,
        range_low=100e-3, range_high=180e-3,
    ),
    Instrument(
        code="L1", title="Lever indicator", type="test indicator", unit="mm",
        resolution=1e-6, repeatability=1.5e-6, range_low=0.0, range_high=0.2e-3,
    ),
    Instrument(
        code="H1", title="Height gauge on the plate", type="height gauge", unit="mm",
        resolution=0.01e-3, repeatability=5.0e-6, range_low=0.0, range_high=300e-3,
    ),
    Instrument(
        code="U1", title="Burette 50 cc with plate", type="burette", unit="cc",
        resolution=1e-7, repeatability=1e-7, calibration_uncertainty=1e-7, typical=True,
    ),
    Instrument(
        code="W1", title="Degree wheel with pointer and vernier", type="degree wheel", unit="deg",
        resolution=si("0.1 deg"), repeatability=si("0.14 deg"),
    ),
    Instrument(
        code="P1", title="Test gauge 0 to 10 bar on the hand pump", type="pressure gauge", unit="bar",
        resolution=5e3, repeatability=5e3, range_low=0.0, range_high=1e6,
    ),
    Instrument(
        code="Q1", title="Spring tester", type="spring tester", unit="N/mm",
        resolution=50.0, repeatability=50.0, calibration_uncertainty=80.0, typical=True,
    ),
    Instrument(
        code="N1", title="Beam torque gauge 0 to 20 N m", type="torque gauge", unit="N m",
        resolution=0.25, repeatability=0.2, calibration_uncertainty=0.2, typical=True,
    ),
)  # fmt: skip


def calibration(instrument: str, uncertainty: str, certificate: str, date: str) -> Calibration:
    """A calibration with its certificate."""
    return Calibration(
        code=f"C-{instrument}",
        instrument=instrument,
        standard_uncertainty=si(uncertainty),
        date=date,
        certificate=certificate,
    )


CALIBRATIONS: tuple[Body, ...] = (
    calibration("M1", "1.0 um", "TC 25/0207", "2025-01-13"),
    calibration("M2", "1.0 um", "TC 25/0208", "2025-01-13"),
    calibration("M3", "1.0 um", "TC 25/0209", "2025-01-13"),
    calibration("M4", "1.0 um", "TC 25/0210", "2025-01-13"),
    calibration("M6", "1.0 um", "TC 25/0211", "2025-01-13"),
    calibration("D1", "1.0 um", "TC 25/0212", "2025-01-14"),
    calibration("J1", "3.0 um", "TC 25/0214", "2025-01-14"),
    calibration("J2", "3.0 um", "TC 25/0215", "2025-01-14"),
    calibration("L1", "2.0 um", "TC 25/0216", "2025-01-14"),
    calibration("H1", "6.0 um", "TC 25/0217", "2025-01-14"),
    calibration("P1", "0.03 bar", "TC 25/0220", "2025-01-15"),
    Calibration(
        code="C-W1", instrument="W1", standard_uncertainty=si("0.14 deg"), never=True,
        reason="never calibrated; typical of a wheel and pointer set at both stops",
    ),
)  # fmt: skip


def blade(marking: str, measured: str | None = None) -> BladeOnShelf:
    """A blade with its measured thickness [mm], or as marked."""
    return BladeOnShelf(
        marking=marking,
        thickness=si(f"{measured or marking} mm"),
        standard_uncertainty=1e-6 if measured else 3e-6,
        measured=measured is not None,
    )


F2_MEASURED = {
    "0.02": "0.021", "0.03": "0.030", "0.04": "0.041", "0.05": "0.050", "0.06": "0.060",
    "0.07": "0.070", "0.08": "0.080", "0.09": "0.090", "0.10": "0.100", "0.15": "0.150",
    "0.20": "0.200", "0.25": "0.251", "0.30": "0.300", "0.35": "0.350", "0.40": "0.399",
    "0.45": "0.450", "0.50": "0.500", "0.55": "0.551", "0.60": "0.600", "0.65": "0.650",
    "0.70": "0.701", "0.75": "0.750", "0.80": "0.800", "0.85": "0.850", "0.90": "0.900",
    "0.95": "0.951", "1.00": "1.000",
}  # fmt: skip
"""Marked and measured thickness of the fine set [mm]."""

F3_THICK_BY_ONE_MICROMETRE = frozenset({"0.12", "0.19", "0.24", "0.33", "0.38"})
"""Blades of the lash set that measure one micrometre over their marking; the others measure true."""

METRIC_13 = (
    "0.05", "0.10", "0.15", "0.20", "0.25", "0.30", "0.40", "0.50", "0.60", "0.70", "0.80", "0.90", "1.00",
)  # fmt: skip


def lash_blade(hundredths: int) -> BladeOnShelf:
    """A blade of the lash set, marked in hundredths of a millimetre."""
    marking = f"{hundredths / 100:.2f}"
    over = "1" if marking in F3_THICK_BY_ONE_MICROMETRE else "0"
    return blade(marking, marking + over)


BLADE_SETS: tuple[Body, ...] = (
    BladeSet(
        code="F1", title="Metric set of 13, workshop", blades=tuple(blade(marking) for marking in METRIC_13)
    ),
    BladeSet(
        code="F2",
        title="Fine set, 6 mm wide, measured",
        blades=tuple(blade(marking, measured) for marking, measured in F2_MEASURED.items()),
    ),
    BladeSet(
        code="F3",
        title="Lash set 0.10 to 0.40 mm by 0.01, measured",
        blades=tuple(lash_blade(hundredths) for hundredths in range(10, 41)),
    ),
)

SHOP: tuple[Body, ...] = (
    *SHOP_SETTINGS,
    *PEOPLE,
    *MICROMETERS,
    *BORE_GAUGES,
    *OTHER_GAUGES,
    *CALIBRATIONS,
    *BLADE_SETS,
)
