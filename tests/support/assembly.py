"""A small engine with an order of work, and a story that goes through it."""

from __future__ import annotations

from datetime import datetime
from typing import Final

from fitwright.assess.assembly.past import Past
from fitwright.assess.assembly.results import (
    FastenerStanding,
    OpenPoint,
    Standing,
    StepStanding,
    StepState,
)
from fitwright.assess.assembly.standing import standing_of
from fitwright.records.kinds import (
    BuildStarted,
    ConsumableUsed,
    EyeCheck,
    Loosening,
    Part,
    Photo,
    StepDone,
    StepReleased,
    Tightening,
    Typed,
)
from tests.support.small_sheet import SHEET, read_clearance, shop, sitting
from tests.support.story import Story

ASSEMBLY: Final = """
[parts.cover]
title = "Cover"
material = "aluminium"
[parts.gasket]
title = "Cover gasket"
material = "steel"
one_time_use = true
[dimensions.deck]
title = "Deck height"
part = "block"
sense = "linear"
nominal = "200.00 mm"
instrument = "outside micrometer"
limits = [{ source = "manual", lower = "199.950 mm", upper = "200.050 mm", governs = true }]

[stations.bench]
title = "Bench"
eye_checks = [
  { id = "bench.turns", question = "Turns by hand?" },
  { id = "bench.leaks", question = "Any leak?", wanted = false },
  { id = "bench.holes_dry", question = "Holes dry to the bottom?" },
]

[consumables.paste]
title = "Assembly paste"
kind = "lubricant"
friction = "assembly paste"
[consumables.sealant]
title = "Sealant"
kind = "sealant"
pot_life = "10 min"
cure_time = "24 h"
batch_wanted = true

[tightening_groups.caps]
title = "Main caps"
thread = "M10x1.25"
property_class = "10.9"
fasteners = ["c1", "c2", "c3", "c4"]
lubricant = "paste"
tapped_in = "iron"
engagement = "15 mm"
passes = [{ torque = "25 N m" }, { torque = "45 N m" }, { torque = "52 N m" }]
critical = true

[tightening_groups.rods]
title = "Rod bolts"
thread = "M9x1.0"
property_class = "12.9"
method = "stretch"
fasteners = ["1a", "1b", "2a", "2b", "3a", "3b", "4a", "4b", "5a", "5b"]
lubricant = "paste"
passes = [
  { torque = "25 N m" },
  { torque = "42 N m", upto = "50 N m", stretch_low = "0.140 mm", stretch_high = "0.160 mm" },
]
grip = [{ length = "26 mm", diameter = "7.8 mm" }, { length = "12 mm" }]
permanent_set = "0.010 mm"
most_tightenings = 3

[tightening_groups.head]
title = "Head studs"
thread = "M11x1.5"
property_class = "12.9"
fasteners = ["h1", "h2"]
lubricant = "engine oil"
clamped = "aluminium"
tapped_in = "iron"
engagement = "20 mm"
grip = [{ length = "60 mm", diameter = "11 mm" }, { length = "20 mm" }]
blind = true
passes = [{ torque = "30 N m" }, { torque = "75 N m" }, { torque = "75 N m", after_heat = true }]

[tightening_groups.flywheel]
title = "Flywheel"
thread = "M10x1.25"
property_class = "12.9"
fasteners = ["f1", "f2"]
lubricant = "engine oil"
passes = [{ torque = "65 N m" }]
one_time_use = true

[steps.crank_in]
title = "Lay the crank in"
stage = "Bottom end"
fits = ["clearance"]
tightens = ["caps"]
uses = ["paste"]
eye_checks = ["bench.turns"]
photos = [{ id = "arrows", words = "Arrows of the caps" }]
cautions = ["over_tightening"]
[steps.rods_on]
title = "Fit the rods"
stage = "Bottom end"
after = ["crank_in"]
tightens = ["rods"]
[steps.bottom_end]
title = "Release the bottom end"
stage = "Bottom end"
after = ["rods_on"]
tightened = ["rods", "caps"]
eye_checks = ["bench.leaks"]
point = "hold point"
[steps.cover_on]
title = "Close the cover"
stage = "Closing"
after = ["bottom_end"]
replaces = ["gasket"]
uses = ["sealant"]
hides = ["clearance", "caps", "rods", "crank"]
[steps.head_on]
title = "Fit the head"
stage = "Top end"
fits = ["deck"]
tightens = ["head"]
eye_checks = ["bench.holes_dry"]
[steps.fill]
title = "Fill with oil"
stage = "Closing"
after = ["cover_on", "head_on"]
cured = ["sealant"]
point = "witness point"
invited = "the customer"
[steps.head_again]
title = "Tighten the head again"
stage = "After the first run"
after = ["fill"]
tightens = ["head"]
"""


def newton_metres(value: float) -> Typed:
    """A torque as typed."""
    return Typed(typed=f"{value:g}", unit="N m", decimals=0, si=value)


def millimetres(value: float, decimals: int = 3) -> Typed:
    """A length as typed."""
    return Typed(typed=f"{value:.{decimals}f}", unit="mm", decimals=decimals, si=value / 1e3)


STRETCHES: Final = {
    "1a": 0.152,
    "1b": 0.149,
    "2a": 0.151,
    "2b": 0.150,
    "3a": 0.148,
    "3b": 0.153,
    "4a": 0.150,
    "4b": 0.149,
    "5a": 0.151,
    "5b": 0.150,
}
"""The rod bolts of the Corrie Five, after the one was lubricated again [mm]."""


class Assembling(Story):
    """A story of somebody who assembles the small engine."""

    def standing(self, now: datetime | None = None, past: Past | None = None) -> Standing:
        """How everything stands."""
        return standing_of(self.assessor(), now=now, past=past)

    def step(self, name: str, now: datetime | None = None) -> StepStanding:
        """How a step stands."""
        return self.standing(now).steps[name]

    def states(self) -> dict[str, StepState]:
        """The states of all steps."""
        return {name: each.state for name, each in self.standing().steps.items()}

    def fastener(self, group: str, name: str) -> FastenerStanding:
        """How a fastener stands."""
        found = self.standing().groups[group].fastener(name)
        assert found is not None
        return found

    def open(self, kind: str) -> list[OpenPoint]:
        """The open points of a kind."""
        return [each for each in self.standing().open_points if each.kind.value == kind]

    # What somebody does.

    def tightens(self, group: str, *fasteners: str, number: int, torque: float, **more: object) -> str:
        """Tighten fasteners to a torque."""
        body = {"wrench": None, "performed_by": "builder"} | more
        return self.says(
            Tightening(group=group, fasteners=fasteners, number=number, torque=newton_metres(torque), **body)  # type: ignore[arg-type]
        )

    def loosens(self, group: str, *fasteners: str, **more: object) -> str:
        """Loosen fasteners."""
        return self.says(Loosening(group=group, fasteners=fasteners, because="again", **more))  # type: ignore[arg-type]

    def caps(self) -> None:
        """All passes of the main caps."""
        for number, torque in enumerate((25.0, 45.0, 52.0), 1):
            self.tightens("caps", "c1", "c2", "c3", "c4", number=number, torque=torque)

    def rods(self, **other: tuple[float, float]) -> None:
        """Both passes of the rod bolts; `other` gives torque and stretch of some."""
        self.tightens("rods", *STRETCHES, number=1, torque=25.0)
        for name, stretch in STRETCHES.items():
            torque, read = other.get(f"b{name}", (46.0, stretch))
            self.tightens("rods", name, number=2, torque=torque, stretch=millimetres(read))

    def answers(self, check: str, *, yes: bool) -> str:
        """Answer an eye check."""
        return self.says(EyeCheck(check=check, answer=yes))

    def uses(self, consumable: str, step: str | None = None, **more: object) -> str:
        """Use a consumable."""
        return self.says(ConsumableUsed(consumable=consumable, step=step, batch="B-7", **more))  # type: ignore[arg-type]

    def photographs(self, subject: str) -> str:
        """Take a photo."""
        return self.says(Photo(digest="0" * 64, media_type="image/jpeg", subject=subject))

    def does(self, step: str, **more: object) -> str:
        """Record a step as done."""
        return self.says(StepDone(step=step, done_by="builder", **more))  # type: ignore[arg-type]

    def releases(self, step: str, by: str = "builder", **more: object) -> str:
        """Release a hold point."""
        return self.says(StepReleased(step=step, released_by=by, **more))  # type: ignore[arg-type]

    # Longer ways.

    def lays_crank_in(self) -> str:
        """Everything for the first step, and the step."""
        read_clearance(self)
        self.caps()
        self.uses("paste", "crank_in")
        self.answers("bench.turns", yes=True)
        self.photographs("crank_in/arrows")
        return self.does("crank_in")

    def closes(self) -> None:
        """From the first step to the closed cover."""
        self.lays_crank_in()
        self.rods()
        self.does("rods_on")
        self.answers("bench.leaks", yes=False)
        self.does("bottom_end")
        self.releases("bottom_end")
        self.says(Part(code="gasket-2", title="Gasket, new", position="gasket"))
        self.uses("sealant", "cover_on")
        self.does("cover_on")


def assembling() -> Assembling:
    """The small build with its shop and one sitting, nothing read and nothing done yet."""
    from fitwright.formats.sheet import read_sheet

    sheet = read_sheet(SHEET + ASSEMBLY)
    story = Assembling(sheet, "small")
    for body in shop():
        story.says(body, shop=True)
    story.says(BuildStarted(code="small", title="Small", sheet=sheet.digest))
    story.says(sitting())
    return story
