"""Which picture a dimension gets: the first rule that holds, else a plain block.

A rule looks at what the sheet says: words of the title, the feature and the part, how the size is
stated, what gauge takes it, and the kind of fit that is read directly as it. Nothing depends on the
ids of one engine; a sheet in other words gets the plain block.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from fitwright.drawing.part_place import (
    along_shaft,
    deck,
    drives,
    gauges,
    pistons,
    plain,
    rotors,
    round_inside,
    round_outside,
    running_out,
    shells,
    valves,
)
from fitwright.drawing.part_place.pen import Pen
from fitwright.drawing.part_place.subject import Subject
from fitwright.model.dimension import Sense
from fitwright.model.fit import FitKind

Picture = Callable[[Pen], None]
Words = frozenset[str]

LENGTHS = frozenset({Sense.LINEAR, Sense.AXIAL, Sense.RADIAL, Sense.DIAMETRAL})
_FLAT = frozenset({Sense.LINEAR, Sense.AXIAL})
_AXIAL = frozenset({Sense.AXIAL})
_ACROSS = frozenset({Sense.DIAMETRAL, Sense.RADIAL})
_DIAMETRAL = frozenset({Sense.DIAMETRAL})


@dataclass(frozen=True, slots=True)
class Rule:
    """A picture, and the words of which each group must be said; "a|b" is one group.

    `never` are words that speak for another picture.
    """

    picture: Picture
    words: tuple[str, ...] = ()
    senses: frozenset[Sense] = LENGTHS
    kind: FitKind | None = None
    gauges: tuple[str, ...] = ()
    inside: bool | None = None
    never: str = ""

    def holds(self, subject: Subject) -> bool:
        """Whether the picture fits the dimension."""
        return (
            subject.sense in self.senses
            and (self.kind is None or self.kind in subject.kinds)
            and (not self.gauges or subject.uses(*self.gauges))
            and (self.inside is None or self.inside == subject.inside)
            and not (self.never and subject.says(*self.never.split("|")))
            and all(subject.says(*group.split("|")) for group in self.words)
        )


def picture_of(subject: Subject) -> Picture:
    """The picture of a dimension."""
    rule = next((rule for rule in RULES if rule.holds(subject)), None)
    if rule is not None:
        return rule.picture
    return plain.block_length if subject.sense is Sense.AXIAL else plain.block_height


def _of(sense: Sense, picture: Picture, *words: str) -> Rule:
    return Rule(picture, words, frozenset({sense}))


_OTHER_SENSES = (
    _of(Sense.VOLUME, gauges.measured_volume, "displacement|turn|delivery"),
    _of(Sense.VOLUME, gauges.piston_volume, "piston"),
    _of(Sense.VOLUME, gauges.chamber_volume),
    _of(Sense.MASS, gauges.small_end_on_scales, "rod", "small"),
    _of(Sense.MASS, gauges.big_end_on_scales, "rod", "big|end"),
    _of(Sense.MASS, gauges.scales),
    _of(Sense.FORCE, drives.tension, "belt|chain|tension"),
    _of(Sense.FORCE, valves.spring_load),
    _of(Sense.STIFFNESS, valves.spring_load),
    _of(Sense.TORQUE, running_out.spring_balance_on_shaft, "turn|turning"),
    _of(Sense.TORQUE, gauges.torque),
    _of(Sense.PRESSURE, gauges.pressure),
    _of(Sense.FLOW, gauges.flow),
    _of(Sense.ANGULAR, gauges.degree_wheel),
)

_RUNNING = (
    Rule(running_out.rod_form, ("rod", "bend|twist")),
    Rule(deck.tunnel, ("tunnel", "straightness|offset|line")),
    Rule(valves.seat_run_out, ("seat", "run", "out")),
    Rule(running_out.cam_base, ("base", "circle", "run")),
    Rule(running_out.face_run_out, ("face", "run|indicator", "out|indicator")),
    Rule(running_out.rim_run_out, ("rim", "run")),
    Rule(running_out.bore_run_out, ("bore|carrier|housing", "run|indicator", "out|indicator")),
    Rule(running_out.shaft_run_out, ("run", "out")),
    Rule(running_out.shaft_run_out, ("crank|camshaft|shaft", "indicator"), _ACROSS),
    Rule(running_out.shaft_run_out, kind=FitKind.RUN_OUT),
)

_GEARS_AND_DRIVES = (
    Rule(drives.backlash, kind=FitKind.BACKLASH),
    Rule(drives.backlash, ("gear|skew|tooth|pitch", "play|rock|backlash|tooth"), _FLAT),
    Rule(drives.tongue_gap, ("tongue", "bottom|gap")),
    Rule(drives.tongue_engaged, ("tongue", "engaged|engagement")),
    Rule(drives.slot_depth, ("slot", "depth")),
    Rule(drives.slack, ("chain|belt", "slack|deflection")),
    Rule(drives.free_span, ("chain|belt", "span")),
    Rule(drives.alignment, ("sprocket|pulley|alignment", "line|alignment")),
    Rule(drives.slot, ("slot",)),
    Rule(drives.flats, ("flat|tongue",), inside=False),
    Rule(drives.slot, ("flat|tongue",)),
)

_ALONG = (
    Rule(along_shaft.shake, ("play|movement|shake", "rod|radial|end"), _ACROSS),
    Rule(along_shaft.end_float, ("movement|float|fore|aft",), _AXIAL),
    Rule(along_shaft.end_float, senses=_AXIAL, kind=FitKind.END_FLOAT, gauges=("dial indicator",)),
    Rule(along_shaft.beside_rod, ("rod|crankpin|end", "side|beside"), _FLAT),
    Rule(along_shaft.between_faces, ("cheek|thrust", "between"), _FLAT),
    Rule(pistons.between_clips, ("clip", "between")),
    Rule(along_shaft.over_faces, ("width", "thrust|rod|bearing|flange"), _AXIAL),
    Rule(along_shaft.pin_length, ("pin|pushrod|tube", "length"), _FLAT),
    Rule(along_shaft.face_gap, ("impeller|spacer|nose", "gap|clearance"), _AXIAL),
    Rule(along_shaft.step_of_faces, ("height|step", "joint|face", "above|neighbour|sump")),
)

_PISTONS = (
    Rule(rotors.o_ring, ("o", "ring", "section|thickness")),
    Rule(pistons.ring_gap, ("ring|rail", "gap", "bore|rail"), _FLAT),
    Rule(pistons.ring_side_gap, ("ring", "groove", "gap|clearance|side")),
    Rule(pistons.groove_height, ("groove", "height|width")),
    Rule(pistons.groove_depth, ("piston|ring", "groove", "depth"), never="pump|o|cover"),
    Rule(rotors.groove, ("groove",)),
    Rule(pistons.radial_thickness, ("ring", "radial", "thickness")),
    Rule(pistons.ring_height, ("ring", "height|thickness|width"), _FLAT),
    Rule(pistons.pocket_offset, ("pocket", "offset")),
    Rule(pistons.pocket, ("pocket", "piston"), _DIAMETRAL),
    Rule(pistons.compression_height, ("piston", "compression|crown", "height|crown"), _FLAT),
    Rule(pistons.skirt, ("skirt",), inside=False),
)

_PUMP = (
    Rule(rotors.pickup_gap, ("pickup", "gap|clay|floor"), _FLAT),
    Rule(rotors.around_shaft, ("gap", "spigot|carrier|seal|housing|land"), frozenset({Sense.RADIAL})),
    Rule(rotors.tip_clearance, ("tip|lobe|mesh", "gap|clearance|lobe")),
    Rule(rotors.body_gap, ("body", "gap|clearance"), _ACROSS),
    Rule(rotors.end_clearance, ("edge|end", "gap|clearance|blade", "rotor|gear|pump|body|stage"), _FLAT),
    Rule(rotors.depth, ("depth", "pocket|body|stage|pump|cover|recess"), _FLAT),
    Rule(rotors.thickness, ("thickness|width", "rotor|gear|driver|idler"), _FLAT),
    Rule(
        round_inside.gear_body,
        ("bore", "gear|body|driver|idler"),
        _DIAMETRAL,
        inside=True,
        never="bush|relief|spigot|shaft|housing",
    ),
)

_VALVES = (
    Rule(valves.valve_to_piston, ("valve", "piston", "gap|clearance|least"), _FLAT),
    Rule(valves.valve_to_valve, ("valve", "between|least", "gap"), _FLAT),
    Rule(valves.retainer_gap, ("retainer", "gap|guide|seal")),
    Rule(valves.tip_sweep, ("sweep",)),
    Rule(valves.rocker_lash, ("rocker", "gap|lash|clearance"), _FLAT),
    Rule(valves.cam_lash, ("cam|base|lash|tappet", "gap|lash|clearance"), _FLAT),
    Rule(valves.spring_solid, ("spring", "touching|solid|bind"), _FLAT),
    Rule(valves.relief_travel, ("relief", "lift|travel"), _FLAT),
    Rule(valves.relief_spring, ("relief", "spring", "place|installed|shortened|preload"), _FLAT),
    Rule(valves.spring_height, ("spring", "valve", "height|length"), _FLAT, never="relief|free"),
    Rule(valves.valve_lift, ("lift|travel", "valve|plunger"), _FLAT),
    Rule(valves.spring_free, ("spring",), _FLAT),
    Rule(valves.seat_width, ("seat", "width"), _FLAT),
)

_DECK_AND_SHELLS = (
    Rule(deck.piston_at_deck, ("piston", "deck|down|below|recess|proud"), _FLAT),
    Rule(deck.squish, ("squish|solder",)),
    Rule(deck.flat_face, ("flatness|warp|diagonal|flat",)),
    Rule(deck.deck_height, ("deck|face", "height|centre"), _FLAT),
    Rule(deck.stroke, ("stroke|throw",), frozenset({Sense.LINEAR, Sense.RADIAL})),
    Rule(running_out.rod_length, ("rod", "length|centre"), _FLAT),
    Rule(shells.wall, ("wall",), frozenset({Sense.LINEAR, Sense.RADIAL})),
    Rule(shells.free_width, ("shell", "free|across", "width|joint")),
    Rule(shells.joint_gap, ("joint", "gap")),
    Rule(shells.register, ("register", "width"), inside=True),
    Rule(shells.cap, ("cap", "width")),
    Rule(shells.flat_stock, ("thickness|gasket|shim|spacer",), _FLAT),
    Rule(deck.opening, ("gasket", "bore|opening"), _DIAMETRAL),
)

_INSIDE = tuple(
    Rule(picture, words, _DIAMETRAL, inside=True)
    for picture, words in (
        (round_inside.pin_boss, ("piston", "pin|boss", "bore|boss")),
        (round_inside.fitted_housing, ("fitted",)),
        (round_inside.counterbore, ("counterbore|plug|carrier|spigot|gasket",)),
        (round_inside.guide, ("guide|relief|follower|plunger|tappet",)),
        (round_inside.cylinder, ("cylinder|liner", "bore")),
        (round_inside.bush, ("small|bush|rocker|camshaft|hub|flywheel|inside|case|eye",)),
        (round_inside.housing, ("housing|main|big|shell|cap",)),
        (round_inside.bush, ()),
    )
)

_OUTSIDE = (
    Rule(round_outside.valve_head, ("valve", "head"), _DIAMETRAL, never="rocker|shaft|stem|guide|seat"),
    Rule(round_outside.valve_stem, ("stem",), _DIAMETRAL),
    Rule(round_outside.plunger, ("plunger|follower|tappet",), _DIAMETRAL),
    Rule(
        round_outside.gear_outside,
        ("gear|driver|idler|stage", "outside|diameter"),
        _DIAMETRAL,
        never="journal|shaft|spindle|bush",
    ),
    Rule(
        round_outside.wheel,
        ("rotor|seat|seal|lip|insert|damper|pulley|bearing",),
        _DIAMETRAL,
        never="journal|shaft|land|nose|pin",
    ),
    Rule(
        round_outside.shaft,
        ("piston|spindle|plug|guide|rocker|camshaft|spigot|nose|shaft|end|pump|land",),
        _DIAMETRAL,
    ),
    Rule(round_outside.journal, ("journal|crankpin|crank",), _DIAMETRAL),
    Rule(round_outside.shaft, (), _DIAMETRAL),
)

RULES = (
    *_OTHER_SENSES,
    *_RUNNING,
    *_GEARS_AND_DRIVES,
    *_ALONG,
    *_PISTONS,
    *_PUMP,
    *_VALVES,
    *_DECK_AND_SHELLS,
    *_INSIDE,
    *_OUTSIDE,
)
"""In the order in which they are tried."""
