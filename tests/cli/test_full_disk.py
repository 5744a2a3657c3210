"""A disk that is full: no half file under a whole one's name, no traceback, and what was there stays."""

from __future__ import annotations

import pytest

from tests.support.little_room import files_up_to


@pytest.mark.parametrize("ending", ["csv", "json"])
def test_an_export_is_whole_or_not_there(run, prepared_demo, tmp_path, ending):
    file = tmp_path / f"r.{ending}"
    file.write_text("as it was")
    with files_up_to(36_000):
        code, _, err = run("export", "corrie-five", file, "--force", "--data", prepared_demo)
    assert code == 2
    assert err.startswith(f"{file} could not be written (File too large)")
    assert file.read_text() == "as it was"
    assert [path.name for path in tmp_path.iterdir()] == [file.name]
