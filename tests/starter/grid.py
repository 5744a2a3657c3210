"""Engines over which starter sheets are tested: every layout, bearing, pump, valve train, unit, job."""

from itertools import product

from fitwright.starter.answers import WORDS, Answers

IRON_FOUR = Answers(
    name="Corrie Four",
    bore=0.0835,
    stroke=0.084,
    main_journal=0.056,
    rod_journal=0.047,
    rod_length=0.1425,
    compression_height=0.0315,
)
BOOSTED_FIVE = Answers(
    name="Corrie Five",
    duty="hill climb",
    aspiration="turbocharged",
    cylinders=5,
    piston="forged",
    valve_train="double overhead camshafts",
    valves_per_cylinder=4,
    pump="crank-driven internal rotor",
    bore=0.0835,
    stroke=0.084,
    main_journal=0.056,
    rod_journal=0.047,
)
WHITE_METAL_FOUR = Answers(
    name="Brackengill Eleven",
    units="inch",
    duty="historic",
    bearings="white metal",
    valve_train="pushrod",
    pump="camshaft-driven",
    bore=0.066675,
    stroke=0.10668,
    main_journal=0.0508,
    rod_journal=0.04445,
)
PUSHROD_VEE = Answers(
    name="Vee",
    arrangement="vee",
    units="inch",
    valve_train="pushrod",
    valve_adjustment="hydraulic",
    pump="chain-driven",
)
FLAT_SIX = Answers(
    name="Flat",
    arrangement="flat",
    cylinders=6,
    cooling="air",
    duty="endurance",
    pump="dry sump",
    pump_stages=3,
)
ROLLER_SINGLE = Answers(
    name="Single", arrangement="single", cooling="air", bearings="rolling", pump="external spur"
)
TWO_STROKE_TWIN = Answers(
    name="Twin",
    arrangement="twin",
    cooling="air",
    bearings="rolling",
    valve_train="two-stroke",
    bore=0.056,
    stroke=0.05,
)
SIDE_VALVE = Answers(name="Side", valve_train="side valve", duty="agricultural", piston_pin="pressed")

BELT_FOUR = Answers(
    name="Belt", cam_drive="belt", block_material="aluminium", rear_seal="rope", pump="dry sump"
)

ENGINES = {
    "belt four": BELT_FOUR,
    "iron four": IRON_FOUR,
    "boosted five": BOOSTED_FIVE,
    "white metal four": WHITE_METAL_FOUR,
    "pushrod vee": PUSHROD_VEE,
    "flat six": FLAT_SIX,
    "roller single": ROLLER_SINGLE,
    "two-stroke twin": TWO_STROKE_TWIN,
    "side valve": SIDE_VALVE,
}


def grid():
    """One engine per combination of layout and bearing, and one per word of every other question."""
    yield from _layouts()
    yield from _single_words()
    yield from _valve_trains()
    yield from _pumps()
    yield Answers(name="Grid", arrangement="flat", rods_per_pin=2)
    yield Answers(name="Grid", arrangement="vee", rods_per_pin=1, cylinders=2)
    yield from ENGINES.values()


def _layouts():
    for arrangement, bearings, units in product(WORDS["arrangement"], WORDS["bearings"], WORDS["units"]):
        yield Answers(name="Grid", arrangement=arrangement, bearings=bearings, units=units)


def _single_words():
    told_elsewhere = {"units", "only", "arrangement", "bearings", "valve_train", "valve_adjustment", "pump"}
    for question, words in WORDS.items():
        if question not in told_elsewhere:
            for word in words:
                yield Answers(name="Grid", **{question: word})


def _valve_trains():
    for number, (train, adjustment) in enumerate(product(WORDS["valve_train"], WORDS["valve_adjustment"])):
        arrangement = ("inline", "vee", "flat")[number % 3]
        yield Answers(name="Grid", valve_train=train, valve_adjustment=adjustment, arrangement=arrangement)
    for count in (2, 3, 4, 5):
        yield Answers(name="Grid", valve_train="double overhead camshafts", valves_per_cylinder=count)


def _pumps():
    for pump, only in product(WORDS["pump"], WORDS["only"]):
        if (pump, only) != ("none", "pump"):
            yield Answers(name="Grid", pump=pump, only=only)
