"""What a drawing of a place shows, read back from its SVG."""

import re
from math import atan2, degrees

SVG = "{http://www.w3.org/2000/svg}"
_POINT = r"(-?[\d.]+) (-?[\d.]+)"
_ARROW = re.compile(rf"M{_POINT}L{_POINT}M{_POINT}")


def of_class(svg, name):
    """The elements of a class."""
    return [each for each in svg.iter() if name in (each.get("class") or "").split()]


def classes(svg):
    """All classes used."""
    return {name for each in svg.iter() for name in (each.get("class") or "").split()}


def lit_of(svg):
    """The group of the lit place, which there is once."""
    (lit,) = of_class(svg, "place-lit")
    assert len(of_class(svg, "place-ring")) == 1
    return lit


def arrows(svg):
    """Tail and tip of each measuring arrow."""
    found = []
    for path in of_class(lit_of(svg), "place-arrow"):
        x1, y1, _, _, x2, y2 = map(float, _ARROW.match(path.get("d")).groups())
        found.append(((x1, y1), (x2, y2)))
    return found


def angles_of(svg):
    """The direction of each arrow in degrees, 0 up, clockwise."""
    return [degrees(atan2(x2 - x1, y1 - y2)) % 360 for (x1, y1), (x2, y2) in arrows(svg)]


def marks_of(svg):
    """The places that have a mark, and those of them that are ticked."""
    open_ones = [each.get("data-place") for each in of_class(svg, "place-open")]
    read = [each.get("data-place") for each in of_class(svg, "place-read")]
    return open_ones + read, read


def mark_point(svg, place):
    """Where the mark of a place stands."""
    for each in (*of_class(svg, "place-open"), *of_class(svg, "place-read")):
        if each.get("data-place") == place:
            circle = each if each.get("cx") else each.find(f"{SVG}circle")
            return float(circle.get("cx")), float(circle.get("cy"))
    raise AssertionError(place)


def words_of(svg, name):
    """The texts of a class."""
    return [each.text or "" for each in of_class(svg, name)]
