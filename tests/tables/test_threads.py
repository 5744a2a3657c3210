"""Threads as people write them."""

import pytest

from fitwright.data.errors import UnknownNameError
from fitwright.data.threads import listed_threads, thread_of
from tests.support.compare import source_keys, verified


@pytest.mark.parametrize(
    "written,meant",
    [
        ("M10x1.25", "M10x1.25"),
        ("m10 x 1,25", "M10x1.25"),
        ("M10\u00d71.25", "M10x1.25"),
        ("M10-1.25", "M10x1.25"),
        ("M 10 x 1.250", "M10x1.25"),
        ("M6", "M6"),
        ("M6x1.0", "M6"),
        ("M11x1.5", "M11"),
        ("M9X1.0", "M9x1"),
        ("M10x1.25 LH", "M10x1.25 LH"),
        ("M10x1.25-LH", "M10x1.25 LH"),
        ("M10x1.25 left-hand", "M10x1.25 LH"),
        ("M10x1.25-6g", "M10x1.25"),
        ("M10x1.25-6g LH", "M10x1.25 LH"),
        ("1/2-20 UNF", "1/2-20 UNF"),
        ("1/2-20", "1/2-20 UNF"),
        ("1/2 UNF", "1/2-20 UNF"),
        ("1/2 in UNC LH", "1/2-13 UNC LH"),
        ('1/2"-13', "1/2-13 UNC"),
        ("7/16-14 UNC-2A", "7/16-14 UNC"),
        ("3/8-16-2A", "3/8-16 UNC"),
        ("#10-32", "#10-32 UNF"),
        ("10-24", "#10-24 UNC"),
        ("No. 8-32", "#8-32 UNC"),
        ("1-12 UNF", "1-12 UNF"),
        ("3/8 BSF", "3/8-20 BSF"),
        ("3/8-16 BSW", "3/8-16 BSW"),
        ("1/4 Whitworth", "1/4-20 BSW"),
        ("5/16 bsf", "5/16-22 BSF"),
    ],
)
def test_what_is_written_is_what_is_meant(written, meant):
    assert thread_of(written).designation == meant


@pytest.mark.parametrize("name", listed_threads())
def test_every_listed_thread_is_found_by_its_own_name(name):
    found, listed = thread_of(name), listed_threads()[name]
    assert found.designation == name
    assert (found.nominal_diameter, found.pitch) == (float(listed.nominal_diameter), float(listed.pitch))
    assert listed.source in source_keys()


@pytest.mark.parametrize(
    "written,near",
    [
        ("M10x1.3", '"M10x1.25"'),
        ("M13", '"M12"'),
        ("1/2", '"1/2-16 BSF"'),
        ("1/2-20 BSF", '"1/2-16 BSF"'),
        ("10", '"#10-32 UNF"'),
        ("", '"M10x1.25"'),
        ("ten millimetres", '"M6"'),
        ("M10x1.25 countersunk", '"M10x1.25"'),
        ("M10x1.25\n; drop", '"M10x1.25"'),
    ],
)
def test_an_unknown_thread_is_one_sentence_with_near_names(written, near):
    with pytest.raises(UnknownNameError) as raised:
        thread_of(written)
    said = str(raised.value)
    assert near in said
    assert "is not known; write " in said
    assert said.count(";") <= 2


def test_a_long_text_is_cut_in_the_sentence():
    with pytest.raises(UnknownNameError) as raised:
        thread_of("M10x" * 500)
    assert len(str(raised.value)) < 200


def test_the_threads_that_engines_use_are_there():
    coarse = "M3 M4 M5 M6 M7 M8 M9 M10 M11 M12 M14 M16 M18 M20 M22 M24"
    fine = "M8x1 M9x1 M10x1.25 M10x1 M11x1.25 M12x1.5 M12x1.25 M14x1.5 M16x1.5 M20x1.5"
    assert {*coarse.split(), *fine.split()} <= set(listed_threads())
    for size in ("1/4", "5/16", "3/8", "7/16", "1/2", "5/8", "3/4"):
        for series in ("UNC", "UNF", "BSW", "BSF"):
            assert any(name.startswith(f"{size}-") and name.endswith(series) for name in listed_threads())


def test_numbered_screws_grow_by_thirteen_thou():
    sizes = [thread_of(f"#{number} UNC").nominal_diameter / 0.0254 for number in (4, 5, 6, 8, 10, 12)]
    verified(
        sizes, [0.112, 0.125, 0.138, 0.164, 0.190, 0.216], by="sizes as sold, in inches", tolerance=1e-12
    )


def test_an_inch_thread_has_exactly_its_number_to_the_inch():
    thread = thread_of("1/2-20 UNF")
    assert (thread.nominal_diameter, thread.pitch) == (0.0127, 0.00127)
