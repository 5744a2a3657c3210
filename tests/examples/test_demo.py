"""The demo shop: both examples whole, with their pictures and signatures, and usable by a newcomer."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from fitwright.bench.pins import has_pin, needs_pin
from fitwright.demo import FolderNotEmptyError, prepare_demo
from fitwright.examples import EXAMPLES, photo_files
from fitwright.wiring import Shop, open_shop, verify_shop


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory):  # type: ignore[no-untyped-def]
    folder = tmp_path_factory.mktemp("demo") / "shop"
    assert prepare_demo(folder) == list(EXAMPLES)
    return folder


@pytest.fixture(scope="module")
def demo(folder) -> Iterator[Shop]:  # type: ignore[no-untyped-def]
    shop = open_shop(folder)
    yield shop
    shop.close()


def test_the_record_and_its_pictures_are_sound(folder, demo):  # type: ignore[no-untyped-def]
    del demo
    found = verify_shop(folder)
    print(*found.told, sep="\n")
    assert found.sound
    assert found.photos_checked == sum(len(photo_files(name)) for name in EXAMPLES)


def test_signatures_speak_for_this_very_record(demo: Shop) -> None:
    signed = [each.body for each in demo.bench("corrie-five").build.work.signatures]
    assert [(each.signed_by, each.meaning) for each in signed] == [
        ("builder", "performed"),
        ("foreman", "checked"),
    ]
    for each in signed:
        spoken_for = demo.record.entry_at(each.seq)
        assert spoken_for is not None
        assert spoken_for.hash == each.hash
    assert demo.bench("brackengill-eleven").build.work.signatures == []


def test_nobody_has_a_pin_yet_and_everybody_needs_one(demo: Shop) -> None:
    assert len(demo.state.people) == 5
    assert not any(has_pin(demo.state, each) for each in demo.state.people)
    assert all(needs_pin(demo.state, each) for each in demo.state.people)


def test_a_folder_in_use_is_left_alone(folder) -> None:  # type: ignore[no-untyped-def]
    with pytest.raises(FolderNotEmptyError, match="name a new folder"):
        prepare_demo(folder)
