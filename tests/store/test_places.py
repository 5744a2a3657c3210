"""No live database on a network file system or in a synchronised folder."""

from __future__ import annotations

import pytest

from fitwright.store import places
from fitwright.store.errors import UnfitPlaceError
from fitwright.store.places import check_place, file_system


@pytest.fixture
def mounts(tmp_path):
    def listing(kind, point):
        path = tmp_path / "mounts"
        escaped = str(point).replace(" ", "\\040")
        path.write_text(
            f"/dev/a / ext4 rw 0 0\nbroken\nserver:/x {escaped} {kind} rw 0 0\nproc /proc proc rw 0 0\n"
        )
        return path

    return listing


@pytest.mark.parametrize("kind", ["nfs", "nfs4", "cifs", "smb3", "9p", "fuse.sshfs", "fuse.rclone", "ceph"])
def test_network_file_systems_are_refused_with_the_reason(tmp_path, mounts, kind):
    share = tmp_path / "the share"
    with pytest.raises(UnfitPlaceError, match="network file system") as caught:
        check_place(share / "shop", mounts=mounts(kind, share))
    assert kind in str(caught.value)
    assert "own disk" in str(caught.value)


@pytest.mark.parametrize(
    "kind", ["ext4", "xfs", "btrfs", "zfs", "apfs", "tmpfs", "overlay", "fuseblk", "f2fs"]
)
def test_disks_of_this_computer_are_taken(tmp_path, mounts, kind):
    check_place(tmp_path / "the share" / "shop", mounts=mounts(kind, tmp_path / "the share"))


def test_the_innermost_mount_counts(tmp_path, mounts):
    listing = mounts("nfs4", tmp_path)
    listing.write_text(listing.read_text() + f"/dev/b {tmp_path}/disk ext4 rw 0 0\n")
    assert file_system(tmp_path / "disk" / "shop", listing) == "ext4"
    assert file_system(tmp_path / "diskette", listing) == "nfs4"
    check_place(tmp_path / "disk" / "shop", mounts=listing)


def test_where_the_system_lists_no_mounts_nothing_is_known(tmp_path):
    assert file_system(tmp_path, tmp_path / "none") is None
    check_place(tmp_path / "shop", mounts=tmp_path / "none")


@pytest.mark.parametrize(
    "marker", [".sync", ".stfolder", ".sync_ab12.db", "._sync_1.db", ".csync_journal.db"]
)
def test_a_folder_that_something_synchronises_is_refused(tmp_path, marker):
    (tmp_path / marker).touch()
    with pytest.raises(UnfitPlaceError, match="synchronised") as caught:
        check_place(tmp_path / "a" / "shop")
    assert marker in str(caught.value)


@pytest.mark.parametrize("name", ["OneDrive", "Google Drive", "Dropbox (shop)", "Mobile Documents"])
def test_folders_known_to_be_synchronised_by_their_name_are_refused(tmp_path, name):
    with pytest.raises(UnfitPlaceError, match="synchronised"):
        check_place(tmp_path / name / "shop")


@pytest.mark.parametrize("name", ["drive", "clouds", "usb-drive", "sync", "synchro rings", "one"])
def test_other_names_are_taken(tmp_path, name):
    check_place(tmp_path / name / "shop")


def test_a_record_is_not_begun_there(tmp_path, opened, monkeypatch):
    monkeypatch.setattr(places, "file_system", lambda place, mounts: "cifs")
    with pytest.raises(UnfitPlaceError):
        opened()
    assert not (tmp_path / "shop").exists()
