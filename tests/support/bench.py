"""A small shop for tests of taking readings: a trial engine, a few gauges, one build."""

from __future__ import annotations

from pathlib import Path

from fitwright.records import kinds
from fitwright.records.kinds import BuildStarted
from fitwright.wiring import Shop, open_shop

SHEET = Path(__file__).resolve().parents[1] / "bench" / "trial.toml"

BLADES = tuple(
    kinds.BladeOnShelf(marking=f"{size / 100:.2f}", thickness=size * 1e-5, standard_uncertainty=1e-6)
    for size in range(3, 11)
)


def gauge(code: str, kind: str, unit: str, resolution: float, **more: object) -> kinds.Instrument:
    """A gauge whose readings scatter by one division."""
    fields = {
        "code": code,
        "title": f"{kind} {code}",
        "type": kind,
        "unit": unit,
        "resolution": resolution,
        "repeatability": resolution,
        **more,
    }
    return kinds.Instrument.model_validate(fields)


THINGS = (
    kinds.Person(code="builder", name="Builder"),
    gauge("M1", "outside micrometer", "mm", 1e-6, range_low=0.0, range_high=0.025),
    gauge("D1", "dial indicator", "mm", 1e-6),
    gauge("T1", "test indicator", "thou", 2.54e-6),
    gauge("P1", "pressure gauge", "bar", 1e4, zero_limit=0.16e5),
    kinds.BladeSet(code="F2", title="Fine set", blades=BLADES),
)


def trial_shop(folder: Path) -> Shop:
    """A new shop with the trial build `trial` and one sitting `S1`."""
    shop = open_shop(folder)
    shop.write([shop.entry(body, person="builder") for body in THINGS])
    sheet = SHEET.read_text(encoding="utf-8")
    shop.start_build("trial", sheet, BuildStarted(code="trial", title="Trial", sheet=""))
    shop.write([shop.entry(kinds.Sitting(code="S1", measured_by="builder"), build="trial")])
    return shop
