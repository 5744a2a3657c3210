"""A photo kept from the command line is there, verified, and noted in its build."""

from __future__ import annotations

from PIL import Image

from fitwright.cli import main
from fitwright.wiring import open_shop, verify_shop


def run(*words):
    try:
        main([str(word) for word in words])
    except SystemExit as stopped:
        return stopped.code
    return 0


def test_a_photo_is_kept_and_verified(tmp_path, capsys):
    picture = tmp_path / "shells.png"
    Image.new("RGB", (40, 30), (200, 180, 150)).save(picture)
    shop = tmp_path / "shop"
    assert run("shop", "photo", picture, "--caption", "Lower shells in order", "--data", shop) == 0
    assert "Photo kept as" in capsys.readouterr().out
    opened = open_shop(shop)
    kept = opened.state.photos[-1].body
    assert kept.caption == "Lower shells in order"
    assert opened.record.photo(kept.digest)
    opened.close()
    assert verify_shop(shop).photos_checked == 1


def test_a_file_that_is_no_photo_is_refused_in_one_sentence(tmp_path, capsys):
    other = tmp_path / "notes.txt"
    other.write_text("no picture", "utf-8")
    assert run("shop", "photo", other, "--data", tmp_path / "shop") == 2
    assert "is no photo that can be kept" in capsys.readouterr().err
