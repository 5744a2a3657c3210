"""A small made-up engine and shop: enough of each kind of fit for a test to read off what follows."""

from __future__ import annotations

from typing import Any, Final

from fitwright.formats.sheet import read_sheet
from fitwright.records.kinds import (
    BladeOnShelf,
    BladeSet,
    Body,
    BuildStarted,
    Calibration,
    Instrument,
    Person,
    Setting,
    Sitting,
)
from tests.support.story import Story

SHEET = """
format = 1
[engine]
id = "small"
name = "Small"
revision = "A"
units = "mm"
[engine.layout]
arrangement = "single"
cylinders = 1
mains = 2
[engine.directions]
top = "deck"
right = "exhaust side"
bottom = "sump"
left = "inlet side"
[sources.manual]
title = "Small works manual"
edition = "1st"
kind = "engine maker"
[sources.trade]
title = "Rules of the trade"
kind = "rule of thumb"
[materials.iron]
title = "Iron"
expansion = "11e-6 /K"
youngs_modulus = "110 GPa"
poisson_ratio = 0.26
[materials.steel]
title = "Steel"
expansion = "11.5e-6 /K"
youngs_modulus = "208 GPa"
poisson_ratio = 0.29
[materials.aluminium]
title = "Aluminium"
expansion = "23e-6 /K"
youngs_modulus = "71 GPa"
poisson_ratio = 0.33
[parts.block]
title = "Block"
material = "iron"
[parts.crank]
title = "Crank"
material = "steel"
[parts.shell]
title = "Shell"
material = "steel"
[parts.head]
title = "Head"
material = "aluminium"
[parts.seat]
title = "Valve seat"
material = "steel"
[temperature_cases.hot]
title = "hot idle"
default = "90 degC"
[temperature_cases.load]
title = "full load"
default = "110 degC"
standard_uncertainty = "8 K"
[temperature_cases.load.parts]
head = "180 degC"
seat = "200 degC"

[dimensions.housing]
title = "Housing"
part = "block"
sense = "diametral"
nominal = "60.000 mm"
instrument = "bore gauge"
[dimensions.journal]
title = "Journal"
part = "crank"
sense = "diametral"
nominal = "55.450 mm"
places = ["front", "rear"]
instrument = "outside micrometer"
[dimensions."shell.wall"]
title = "Shell wall"
part = "shell"
sense = "linear"
nominal = "2.250 mm"
instrument = "ball micrometer"
[dimensions.fitted]
title = "Fitted bore"
through = ["housing", "shell"]
sense = "diametral"
nominal = "55.500 mm"
instrument = "bore gauge"
[fits.clearance]
title = "Running clearance"
kind = "running clearance"
sense = "diametral"
class = "critical"
by_parts = "housing - 2 * shell.wall - journal"
fitted = "fitted - journal"
governing_route = "fitted"
limits = [
  { source = "manual", lower = "0.040 mm", upper = "0.060 mm", governs = true },
  { source = "manual", lower = "0.040 mm", upper = "0.090 mm", governs = true, applies_to = "used" },
]

[dimensions.gap]
title = "End gap, blades"
through = ["block", "crank"]
sense = "axial"
plausible = ["0.01 mm", "0.50 mm"]
instrument = "feeler blades"
[fits.end_float]
title = "End float"
kind = "end float"
sense = "axial"
class = "critical"
fitted = "gap"
limits = [{ source = "trade", lower = "0.040 mm", upper = "0.075 mm", depends_on = "length" }]
[fits.side]
title = "Side clearance"
kind = "side clearance"
sense = "axial"
fitted = "gap"
limits = [{ source = "trade", lower = "0.040 mm", upper = "0.075 mm", depends_on = "length" }]
[fits.hot_gap]
title = "Gap, limits for a hot engine"
kind = "gap"
sense = "axial"
fitted = "gap"
growth = ["+ 100 mm head", "- 100 mm crank"]
limits = [
  { source = "manual", lower = "0.140 mm", upper = "0.180 mm", governs = true, temperature_case = "hot" },
]

[dimensions.seat_bore]
title = "Seat pocket"
part = "head"
sense = "diametral"
nominal = "40.000 mm"
instrument = "bore gauge"
[dimensions.seat_diameter]
title = "Seat"
part = "seat"
sense = "diametral"
nominal = "40.080 mm"
instrument = "outside micrometer"
[fits.seat_grip]
title = "Seat in its pocket"
kind = "interference"
sense = "diametral"
by_parts = "seat_diameter - seat_bore"
limits = [{ source = "manual", lower = "0.060 mm", upper = "0.120 mm", governs = true }]
[fits.seat_grip.press]
hub = "head"
shaft = "seat"
hub_outer_diameter = "70 mm"
shaft_inner_diameter = "32 mm"
"""

MICROMETER: Final[dict[str, Any]] = {
    "type": "outside micrometer",
    "unit": "mm",
    "resolution": 1e-6,
    "repeatability": 1.0e-6,
}
BORE_GAUGE: Final[dict[str, Any]] = {
    "type": "bore gauge",
    "unit": "mm",
    "resolution": 1e-6,
    "repeatability": 1.1e-6,
    "transfer_uncertainty": 1.2e-6,
    "comparison": True,
}


def shop() -> list[Body]:
    """People, gauges, settings and blades: the scenario's own uncertainties."""
    return [
        Person(code="builder", name="Builder", role="builder"),
        Instrument(code="M", title="Micrometer", **MICROMETER),
        Calibration(code="C-M", instrument="M", standard_uncertainty=1.0e-6),
        Instrument(code="N", title="Another micrometer", **MICROMETER),
        Calibration(code="C-N", instrument="N", standard_uncertainty=1.0e-6),
        Instrument(code="B", title="Bore gauge", **BORE_GAUGE),
        Instrument(code="W", title="Ball micrometer", **(MICROMETER | {"type": "ball micrometer"})),
        Calibration(code="C-W", instrument="W", standard_uncertainty=1.0e-6),
        Setting(code="S-M", instrument="M", standard_uncertainty=0.5e-6),
        Setting(code="S-N", instrument="N", standard_uncertainty=0.5e-6),
        Setting(code="S-W", instrument="W", standard_uncertainty=0.5e-6),
        Setting(code="S-BM", instrument="B", master="M", master_setting="S-M"),
        Setting(code="S-BR", instrument="B", standard_uncertainty=1.0e-6, against="ring"),
        BladeSet(
            code="F",
            title="Fine set",
            blades=tuple(
                BladeOnShelf(marking=f"{n / 100:.2f}", thickness=n * 1e-5, standard_uncertainty=1e-6)
                for n in range(2, 11)
            ),
        ),
    ]


def sitting(code: str = "T-1", **more: object) -> Sitting:
    """A sitting at 20 degrees Celsius sharp, so that temperature adds nothing."""
    exact = {"temperature_uncertainty": 0.0, "part_gauge_difference_uncertainty": 0.0}
    return Sitting(code=code, measured_by="builder", **(exact | more))  # type: ignore[arg-type]


def small_story(text: str = SHEET) -> Story:
    """The small build with its shop and one sitting, nothing read yet."""
    sheet = read_sheet(text)
    story = Story(sheet, "small")
    for body in shop():
        story.says(body, shop=True)
    story.says(BuildStarted(code="small", title="Small", sheet=sheet.digest))
    story.says(sitting())
    return story


def read_clearance(
    story: Story, setting: str = "S-BM", fitted: str = "55.500", journal: str = "55.450"
) -> None:
    """The fitted bore and both places of the journal."""
    story.reads("fitted", None, fitted, instrument="B", setting=setting)
    for place in ("front", "rear"):
        story.reads("journal", place, journal, instrument="M", setting="S-M")
