"""A tightening group as physics sees it: thread, faces, strength, friction, grip, what holds the thread."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property

from fitwright.assess.assembly.fastener_results import Preload
from fitwright.data.errors import DataError
from fitwright.data.fasteners import (
    Lubricant,
    ParentMetal,
    PropertyClass,
    lubricant_of,
    parent_metal_of,
    property_class_of,
    usual_bearing,
)
from fitwright.data.threads import thread_of
from fitwright.model.fastener import TighteningGroup
from fitwright.model.sheet import Sheet
from fitwright.physics.fasteners.engagement import effective_engagement
from fitwright.physics.fasteners.friction import Bearing
from fitwright.physics.fasteners.resilience import (
    Anchor,
    ClampedLayer,
    ShankSection,
    bolt_resilience,
    clamped_resilience,
    grip_resilience,
)
from fitwright.physics.fasteners.stripping import Stripping, stripping
from fitwright.physics.fasteners.thread import Thread
from fitwright.physics.numerics.errors import PhysicsError
from fitwright.quantity import Metre, MetrePerNewton

_WIDE = 2.5
"""Clamped parts reach so many times the face under the head outwards, where nothing is known of them."""


@dataclass(frozen=True)
class Joint:
    """One group with what the sheet and the tables say of it; errors of a name are kept as words.

    Attributes
    ----------
    sheet : Sheet
        The engine sheet.
    group : TighteningGroup
        The group.
    preloads : dict
        Those that were computed, by what they were computed from.
    """

    sheet: Sheet
    group: TighteningGroup
    preloads: dict[object, Preload | None] = field(default_factory=dict, repr=False, compare=False)
    _lubricants: dict[str, Lubricant | None] = field(default_factory=dict, repr=False, compare=False)

    @cached_property
    def thread(self) -> Thread | None:
        """The thread; None where the designation says nothing."""
        try:
            return thread_of(self.group.thread)
        except (DataError, PhysicsError):
            return None

    @cached_property
    def bearing(self) -> Bearing | None:
        """The face under the head: the sheet's, or that of a usual hexagon head."""
        outer, hole = self.group.bearing_diameter_outer, self.group.bearing_diameter_hole
        if self.thread is None:
            return None
        try:
            usual = usual_bearing(self.thread).bearing
            return Bearing(
                outer.si if outer is not None else usual.outer_diameter,
                hole.si if hole is not None else usual.hole_diameter,
            )
        except (DataError, PhysicsError):
            return None

    @property
    def usual_face(self) -> bool:
        """Whether the face under the head is that of a usual head, because the sheet states none."""
        return self.group.bearing_diameter_outer is None or self.group.bearing_diameter_hole is None

    @cached_property
    def property_class(self) -> PropertyClass | None:
        """The strength of its class."""
        if self.group.property_class is None or self.thread is None:
            return None
        try:
            return property_class_of(self.group.property_class, self.thread)
        except DataError:
            return None

    def lubricant(self, named: str | None) -> Lubricant | None:
        """The lubricant behind a consumable or a name."""
        if named is None:
            return None
        if named not in self._lubricants:
            self._lubricants[named] = self._lubricant(named)
        return self._lubricants[named]

    def _lubricant(self, named: str) -> Lubricant | None:
        consumable = self.sheet.consumables.get(named)
        for text in (consumable.friction, consumable.title) if consumable is not None else (named,):
            try:
                if text is not None:
                    return lubricant_of(text)
            except DataError:
                continue
        return None

    @cached_property
    def sections(self) -> tuple[ShankSection, ...]:
        """The plain lengths of the grip."""
        return tuple(
            ShankSection(each.length.si, each.diameter.si)
            for each in self.group.grip
            if each.diameter is not None
        )

    @cached_property
    def free_thread(self) -> Metre:
        """The length of thread within the grip."""
        return sum(each.length.si for each in self.group.grip if each.diameter is None)

    @property
    def grip_length(self) -> Metre:
        """The whole grip."""
        return sum(each.length.si for each in self.group.grip)

    @property
    def shank_diameter(self) -> Metre | None:
        """Where a waisted shank is thinnest."""
        return min((each.diameter for each in self.sections), default=None)

    @cached_property
    def grip_resilience(self) -> MetrePerNewton | None:
        """What a stretch gauge sees for each newton; None without a grip."""
        if self.thread is None or not self.group.grip:
            return None
        return grip_resilience(self.thread, self.sections, free_thread_length=self.free_thread)

    @cached_property
    def layers(self) -> tuple[ClampedLayer, ...]:
        """What it clamps, as one layer of the sheet's material; none where that is not known."""
        material = self.sheet.materials.get(self.group.clamped or "")
        if material is None or material.youngs_modulus is None or not self.grip_length:
            return ()
        return (ClampedLayer(self.grip_length, material.youngs_modulus, material.expansion),)

    @cached_property
    def resilience(self) -> MetrePerNewton | None:
        """How far bolt and clamped parts give together, for angles and temperatures."""
        if self.thread is None or self.bearing is None or not self.layers:
            return None
        anchor = Anchor.TAPPED_HOLE if self.group.tapped_in is not None else Anchor.NUT
        modulus = self.parent.elastic_modulus if self.parent is not None else None
        wide = _WIDE * self.bearing.outer_diameter
        bolt = bolt_resilience(
            self.thread,
            self.sections,
            free_thread_length=self.free_thread,
            anchor=anchor,
            anchor_modulus=modulus,
        )
        return bolt + clamped_resilience(self.layers, self.bearing, outside_diameter=wide, anchor=anchor)

    @cached_property
    def parent(self) -> ParentMetal | None:
        """The metal that the thread is cut into."""
        named = self.group.tapped_in
        material = self.sheet.materials.get(named or "")
        for text in (named, material.title if material is not None else None):
            try:
                if text is not None:
                    return parent_metal_of(text)
            except DataError:
                continue
        return None

    @cached_property
    def stripping(self) -> Stripping | None:
        """What the thread holds; None where the sheet does not say in what and how deep it sits.

        An insert widens the thread that holds in the parent metal; by how much the sheet does not say.
        """
        length, strength = self.group.engagement, self.property_class
        if self.thread is None or length is None or strength is None or self.parent is None:
            return None
        if self.group.thread_insert:
            return None
        try:
            return stripping(
                self.thread,
                effective_engagement(self.thread, length.si),
                bolt_tensile_strength=strength.strength.tensile_strength,
                bolt_shear_strength=strength.shear_strength,
                parent_shear_strength=self.parent.shear_strength,
            )
        except PhysicsError:
            return None
