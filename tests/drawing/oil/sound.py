"""What holds for every picture of the oil system."""

from __future__ import annotations

import re
from itertools import combinations
from xml.etree import ElementTree as ET

from fitwright.drawing.oil_style import style

SVG = "{http://www.w3.org/2000/svg}"


def assert_sound(picture):
    """Valid, named, all writing on the picture and none of it on other writing, styled, no number missing."""
    root = ET.fromstring(picture.svg)
    assert root.get("aria-label") == picture.label
    assert root.find(f"{SVG}desc").text
    for first, second in combinations(picture.texts, 2):
        assert not first.overlaps(second), (first, second)
    for box in picture.texts:
        assert box.x >= -0.01, box
        assert box.y >= 0.0, box
        assert box.x + box.width <= picture.width + 0.01, box
        assert box.y + box.height <= picture.height, box
    assert "style=" not in picture.svg
    assert not re.search(r"\b(nan|inf|None)\b", picture.svg)
    used = {name for each in root.iter() if each is not root for name in (each.get("class") or "").split()}
    named = set(re.findall(r"\.([a-z][a-z0-9-]*)", style()))
    unstyled = {"oc-symbol", "oc-flows", "oc-backwards"}
    assert used <= named | unstyled, used - named
    return root


def words_of(picture):
    """All writing as one text."""
    return " | ".join(box.words for box in picture.texts)
