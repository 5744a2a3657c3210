"""The small engine with its order of work in a shop that pages are served from."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import Any

from fitwright.records.kinds import Body, BuildStarted, Calibration, Instrument, Person
from fitwright.wiring import Shop
from tests.support.assembly import ASSEMBLY, Assembling
from tests.support.small_sheet import SHEET, read_clearance, shop, sitting

MORE = """
[tightening_groups.damper]
title = "Damper bolt"
thread = "M12x1.5 LH"
property_class = "10.9"
fasteners = ["d1"]
lubricant = "engine oil"
locking = "castle nut"
passes = [{ torque = "60 N m", upto = "75 N m" }]
[tightening_groups.cover]
title = "Cover screws"
thread = "M6x1.0"
fasteners = ["s1", "s2", "s3"]
note = "Corners last."
"""
TEXT = SHEET + ASSEMBLY + MORE
CODE = "small"
WRENCH: dict[str, Any] = {"type": "torque wrench", "unit": "N m", "resolution": 0.5, "repeatability": 0.5}


@dataclass
class Workshop:
    """A shop with one build, and the story that is told into it."""

    shop: Shop
    story: Assembling
    told: int = field(default=0)

    @classmethod
    def open(cls, shop_: Shop, text: str = TEXT) -> Workshop:
        """A shop in which the small build was begun, with a sitting and two wrenches."""
        from fitwright.formats.sheet import read_sheet

        story = Assembling(read_sheet(text), CODE)
        for body in (*shop(), *wrenches()):
            story.says(body, shop=True)
        story.says(sitting())
        shop_.start_build(CODE, text, BuildStarted(code=CODE, title="Small", sheet=""))
        return cls(shop_, story).tell()

    def tell(self) -> Workshop:
        """Write what was added to the story."""
        self.shop.write([replace(each, person="builder") for each in self.story.new[self.told :]])
        self.told = len(self.story.new)
        return self

    def says(self, body: Body, *, person: str | None = "builder", shop: bool = False) -> str:
        """Write one entry past the story; its id."""
        entry = self.shop.entry(body, build=None if shop else CODE, person=person)
        self.shop.write([entry])
        return entry.id

    def hires(self, code: str, name: str) -> None:
        """A second person."""
        self.says(Person(code=code, name=name, role="builder"), shop=True)

    def laid_in(self) -> Workshop:
        """The first step with everything it asks for."""
        self.story.lays_crank_in()
        return self.tell()

    def read_outside(self) -> None:
        """The clearance read again, outside."""
        read_clearance(self.story, journal="55.300")
        self.tell()


def wrenches() -> list[Body]:
    """A wrench that is in order, and one of which little is known."""
    return [
        Instrument(code="T3", title="Click wrench", range_low=20.0, range_high=100.0, **WRENCH),
        Calibration(code="C-T3", instrument="T3", standard_uncertainty=0.5, date="2026-11-02"),
        Instrument(code="T9", title="Borrowed wrench", **WRENCH),
    ]
