"""Tables of fasteners: names as people write them, sources, and numbers that lie where they can."""

import tomllib
from importlib.resources import files
from itertools import pairwise

import pytest

from fitwright.data.errors import UnknownNameError
from fitwright.data.fasteners import (
    NoStrengthError,
    lubricant_of,
    lubricants,
    parent_metal_of,
    parent_metals,
    property_class_names,
    property_class_of,
    usual_bearing,
    width_across_flats,
)
from fitwright.data.threads import thread_of
from tests.support.compare import published, source_keys

M10 = thread_of("M10x1.25")
HALF_INCH = thread_of("1/2-20 UNF")


def table(name):
    return tomllib.loads(files("fitwright.data").joinpath(name).read_text(encoding="utf-8"))


# Property classes


@pytest.mark.parametrize(
    "written,name",
    [
        ("10.9", "10.9"),
        ("10,9", "10.9"),
        ("class 8.8", "8.8"),
        ("ISO 12.9", "12.9"),
        ("Grade 8", "SAE 8"),
        ("sae 5", "SAE 5"),
        ("A4-70", "A2-70"),
        ("190 ksi", "stud 190 ksi"),
    ],
)
def test_a_class_as_people_write_it(written, name):
    assert property_class_of(written, M10).name == name


def test_an_unknown_class_names_the_nearest():
    with pytest.raises(UnknownNameError, match=r'property class "13\.9" is not known; write .*"12\.9"'):
        property_class_of("13.9", M10)


def test_8_8_is_stronger_above_sixteen():
    thin, thick = (property_class_of("8.8", thread_of(each)).strength for each in ("M16", "M18"))
    assert (thin.proof_stress, thick.proof_stress) == (580e6, 600e6)
    assert (thin.yield_strength, thick.yield_strength) == (640e6, 660e6)


def test_a_class_that_is_not_made_so_thick_says_so():
    with pytest.raises(NoStrengthError, match=r"9\.8 is not made 20 mm thick"):
        property_class_of("9.8", thread_of("M20"))


@pytest.mark.parametrize("name", property_class_names())
def test_classes_are_in_order_and_have_a_source(name):
    found = property_class_of(name, M10)
    strength = found.strength
    assert strength.proof_stress <= strength.yield_strength < strength.tensile_strength
    assert 0.5 * strength.tensile_strength < found.shear_strength < 0.75 * strength.tensile_strength
    assert found.source in source_keys()


@pytest.mark.parametrize("name,tensile,proof", [("SAE 2", 74, 55), ("SAE 5", 120, 85), ("SAE 8", 150, 120)])
def test_grades_in_thousands_of_pounds(name, tensile, proof):
    strength = property_class_of(name, HALF_INCH).strength
    ksi = 4.4482216152605 / 0.0254**2 * 1e3
    published(
        [strength.tensile_strength / ksi, strength.proof_stress / ksi],
        [tensile, proof],
        source="sae_j429_2014",
        place=f"table 1, grade {name[-1]}, tensile strength and proof load stress",
        tolerance=2e-3,
        why="the table in MPa is rounded to 1 MPa",
    )


# Lubricants


@pytest.mark.parametrize(
    "written,name",
    [
        ("assembly paste", "assembly_paste"),
        ("Assembly Paste on threads and under the head", "assembly_paste"),
        ("engine oil", "engine_oil"),
        ("oil", "engine_oil"),
        ("low-strength locker", "threadlocker_wet"),
        ("medium locker", "threadlocker_wet"),
        ("Medium-strength threadlocker, wet", "threadlocker_wet"),
        ("clean dry seat", "dry_degreased"),
        ("dry", "dry_as_delivered"),
        ("no lubricant", "dry_as_delivered"),
        ("class C", "class C"),
        ("Class b", "class B"),
        ("dry stainless", "stainless_dry"),
    ],
)
def test_a_lubricant_as_people_write_it(written, name):
    assert lubricant_of(written).name == name


@pytest.mark.parametrize(
    "written", ["no oil on the threads", "never grease", "soap", "boiled", "", "without paste"]
)
def test_what_is_denied_or_unknown_is_no_lubricant(written):
    with pytest.raises(UnknownNameError, match="is not known; write "):
        lubricant_of(written)


@pytest.mark.parametrize("name", lubricants())
def test_a_lubricant_lies_in_its_range_and_has_a_source(name):
    found = lubricants()[name]
    assert found.friction.least_factor <= 0.85
    assert found.friction.most_factor >= 1.15
    assert 0.03 < found.friction.least.thread < found.friction.most.thread <= 0.55
    assert found.source in source_keys()
    assert lubricant_of(name) is found


@pytest.mark.parametrize("name", table("lubricants.toml")["lubricants"])
def test_a_lubricant_lies_within_what_its_class_allows(name):
    row = table("lubricants.toml")["lubricants"][name]
    allowed = table("lubricants.toml")["classes"][row["class"]]
    assert row["least"] < min(row["thread"], row["head"])
    assert max(row["thread"], row["head"]) < row["most"]
    # A class is a range of products; what one product does may reach a little over its ends.
    assert allowed["least"] - 0.05 <= row["least"]
    assert row["most"] <= allowed["most"] + 0.03
    assert allowed["least"] - 0.01 <= 0.5 * (row["thread"] + row["head"]) <= allowed["most"]


@pytest.mark.parametrize(
    "name,least,most", [("A", 0.04, 0.10), ("B", 0.08, 0.16), ("C", 0.14, 0.24), ("D", 0.2, 0.35)]
)
def test_friction_classes(name, least, most):
    row = table("lubricants.toml")["classes"][name]
    published(
        [row["least"], row["most"]],
        [least, most],
        source="vdi2230_1_2015",
        place=f"table A5, friction class {name}",
        tolerance=1e-12,
        why="copied as printed",
    )


@pytest.mark.parametrize("name", ["lubricants.toml", "parent_metals.toml", "property_classes.toml"])
def test_no_word_means_two_things(name):
    rows = table(name)
    rows = rows.get("lubricants", rows)
    several = ({word.casefold() for word in (key, *row.get("words", ()))} for key, row in rows.items())
    words = [word for each in several for word in each]
    assert len(set(words)) == len(words)


# Metals and faces


@pytest.mark.parametrize("name", parent_metals())
def test_parent_metals_have_a_source_and_are_weaker_than_bolts(name):
    metal = parent_metals()[name]
    assert metal.source in source_keys()
    assert 80e6 < metal.shear_strength < metal.tensile_strength < 1000e6
    assert 150e6 < metal.seat_limit < 1000e6
    assert parent_metal_of(name.upper().replace("_", " ")) is metal


def test_an_unknown_metal_names_the_nearest():
    with pytest.raises(UnknownNameError, match='"cast_aluminium"'):
        parent_metal_of("cast alumnium")


@pytest.mark.parametrize("head", ["hexagon", "socket", "flange"])
@pytest.mark.parametrize("hole", ["fine", "medium", "coarse"])
def test_faces_grow_with_the_thread_and_lie_outside_their_holes(head, hole):
    sizes = ("M5", "M6", "M8", "M9", "M10", "M11", "M12", "M14", "M16", "M20")
    bearings = [usual_bearing(thread_of(each), head, hole).bearing for each in sizes]
    assert all(a.outer_diameter < b.outer_diameter for a, b in pairwise(bearings))
    assert all(a.hole_diameter < b.hole_diameter for a, b in pairwise(bearings))


def test_a_size_that_the_standard_lacks_lies_between_its_neighbours_and_says_so():
    m8, m9, m10 = (usual_bearing(thread_of(each)) for each in ("M8", "M9x1", "M10"))
    assert m8.bearing.outer_diameter < m9.bearing.outer_diameter < m10.bearing.outer_diameter
    assert "between the sizes of the standard" in m9.origin
    assert "between" not in m10.origin
    assert width_across_flats(thread_of("M9x1")) is None
    assert width_across_flats(thread_of("M10")) == 0.016
