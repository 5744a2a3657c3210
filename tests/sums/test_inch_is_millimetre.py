"""The same sizes written in inches and in millimetres give the same figures, to the last bit."""

from decimal import Decimal

from hypothesis import given
from hypothesis import strategies as st

from fitwright.sums import run

STEP_IN_MILLIMETRES = Decimal("0.000254")
"""A hundredth of a thou."""


def inches(steps):
    return f"{Decimal(steps) / 100000} in"


def thou(steps):
    return f"{Decimal(steps) / 100} thou"


def millimetres(steps):
    return f"{Decimal(steps) * STEP_IN_MILLIMETRES} mm"


def same(name, inputs_in):
    written = [run(name, inputs_in(unit)) for unit in (millimetres, inches, thou)]
    assert written[0].results == written[1].results == written[2].results


sizes = st.integers(100_000, 400_000)
small = st.integers(100, 1500)


@given(blade=small, step=small, limit=small)
def test_blades(blade, step, limit):
    same(
        "blades",
        lambda write: {
            "answers": [
                {"thickness": write(blade), "answer": "goes"},
                {"thickness": write(blade + step), "answer": "does not go"},
            ],
            "lower_limit": write(limit),
        },
    )


@given(wanted=small, blades=st.lists(small, min_size=2, max_size=6, unique=True))
def test_blade_stack(wanted, blades):
    same("blade-stack", lambda write: {"wanted_thickness": write(wanted), "blades": list(map(write, blades))})


@given(bore=sizes, clearance=small, u=st.integers(1, 20))
def test_missing_part(bore, clearance, u):
    same(
        "missing-part",
        lambda write: {
            "members": [
                {"size": write(bore), "standard_uncertainty": write(u)},
                {"coefficient": -1, "standard_uncertainty": write(u)},
            ],
            "lower_limit": write(clearance),
        },
    )


@given(bore=sizes, clearance=small, degrees=st.integers(-40, 300))
def test_expansion_in_fahrenheit_too(bore, clearance, degrees):
    def inputs(write):
        warm = f"{degrees} degC" if write is millimetres else f"{Decimal(degrees) * 9 / 5 + 32} degF"
        return {
            "members": [
                {"size": write(bore), "material": "cast_iron"},
                {"coefficient": -1, "size": write(bore - clearance), "material": "steel"},
            ],
            "temperature": warm,
        }

    same("expansion", inputs)


@given(shaft=sizes, interference=small, wall=sizes)
def test_interference(shaft, interference, wall):
    same(
        "interference",
        lambda write: {
            "shaft_diameter": write(shaft),
            "interference": write(interference),
            "hub_outer_diameter": write(shaft + wall),
            "hub_material": "cast_aluminium",
            "shaft_material": "steel",
        },
    )


@given(gaps=st.lists(small, min_size=4, max_size=4), limit=small)
def test_centring(gaps, limit):
    same(
        "centring",
        lambda write: {
            "gaps": [
                {"angle": where, "gap": write(gap)}
                for where, gap in zip(("top", "right", "bottom", "left"), gaps, strict=True)
            ],
            "upper_limit": write(limit),
        },
    )


@given(gap=small, land=sizes, wider=small)
def test_leaks(gap, land, wider):
    oil = {"pressure_drop": "4 bar", "dynamic_viscosity": "10 mPa s"}
    same(
        "slot-leakage",
        lambda write: {"gap": write(gap), "width": write(land), "length": write(land + wider), **oil},
    )
    same(
        "end-leakage",
        lambda write: {
            "gap": write(gap),
            "inner_diameter": write(land),
            "outer_diameter": write(land + wider),
            **oil,
        },
    )


@given(diameter=sizes, clearance=small)
def test_bearing_feeds(diameter, clearance):
    oil = {"gauge_pressure": "3 bar", "dynamic_viscosity": "10 mPa s", "land_length": "9 mm"}
    same(
        "groove-flow",
        lambda write: {"journal_diameter": write(diameter), "radial_clearance": write(clearance), **oil},
    )
    crank = {"gauge_pressure": "3 bar", "rotational_speed": "6000 rpm"}
    same("feed-margin", lambda write: {"main_journal_diameter": write(diameter), **crank})


@given(diameter=sizes, radius=small)
def test_inlet_edge_loss(diameter, radius):
    same(
        "inlet-edge-loss",
        lambda write: {"diameter": write(diameter), "edge_radius": write(radius), "flow": "30 L/min"},
    )


@given(lifts=st.lists(sizes, min_size=2, max_size=6))
def test_five_lift(lifts):
    same("five-lift", lambda write: {"indications": list(map(write, lifts))})


@given(steps=sizes)
def test_convert(steps):
    results = [run("convert", {"amount": write(steps)}).results for write in (millimetres, inches, thou)]
    assert results[0] == results[1] == results[2]


@given(eccentricity=st.integers(8_000, 14_000), tooth=st.integers(25_000, 40_000), width=sizes)
def test_rotor_pump(eccentricity, tooth, width):
    same(
        "rotor-pump",
        lambda write: {
            "inner_lobes": 4,
            "eccentricity": write(eccentricity),
            "generating_radius": write(100_000),
            "tooth_radius": write(tooth),
            "width": write(width),
        },
    )


@given(preload=st.integers(10_000, 60_000), seat=st.integers(25_000, 80_000), shim=small)
def test_relief(preload, seat, shim):
    same(
        "relief",
        lambda write: {
            "spring_rate": "8 N/mm",
            "preload_length": write(preload),
            "seat_diameter": write(seat),
            "full_lift": write(20_000),
            "shim_thickness": write(shim),
            "flow": "40 L/min",
        },
    )


@given(engagement=sizes, depth=small)
def test_stripping(engagement, depth):
    hole = {"thread": "M10", "property_class": "10.9", "parent_metal": "cast_aluminium"}
    same(
        "stripping",
        lambda write: {**hole, "engagement_length": write(engagement), "countersink_depth": write(depth)},
    )


@given(length=sizes, diameter=st.integers(25_000, 60_000), stretch=st.integers(100, 1000))
def test_stretch(length, diameter, stretch):
    same(
        "stretch",
        lambda write: {
            "thread": "3/8-24 UNF",
            "sections": [{"length": write(length), "diameter": write(diameter)}],
            "stretch": write(stretch),
        },
    )


@given(length=sizes, extension=sizes)
def test_wrench_extension(length, extension):
    same(
        "wrench-extension",
        lambda write: {
            "tightening_torque": "45 lbf ft",
            "wrench_length": write(length),
            "extension_length": write(extension),
        },
    )
