"""The pictures of the documentation are what the code draws."""

import pytest

from tools.pictures import FOLDER, drawn

PICTURES = dict(drawn())


@pytest.mark.parametrize("name", PICTURES)
def test_the_picture_is_up_to_date(name):
    kept = (FOLDER / name).read_text(encoding="utf-8")
    assert kept == PICTURES[name], "run: python -m tools.pictures"


def test_no_picture_is_left_over():
    assert {path.name for path in FOLDER.glob("section-*.svg")} == set(PICTURES)
