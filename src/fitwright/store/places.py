"""Which folders are no place for a live database: network file systems and synchronised folders.

Both break what durable commits rest on: locks that hold and files that nobody else replaces. The
file system type is read where the system lists its mounts (Linux), and network paths are known by
their form (Windows); on other systems only synchronised folders are found.
"""

from __future__ import annotations

import re
from pathlib import Path

from fitwright.store.errors import UnfitPlaceError

MOUNTS = Path("/proc/mounts")

NETWORK_TYPES = re.compile(
    r"(nfs\d*|cifs|smb\w*|9p|afs|ceph|gluster\w*|lustre|ncpfs|ocfs2|gfs2|davfs|drvfs|coda|beegfs|orangefs"
    r"|fuse\.(?!ext|xfs|btrfs|zfs|ntfs|fuseblk|portal|snapfuse)\w.*)"
)

SYNCED_MARKERS = re.compile(
    r"\.(_?c?sync|st(folder|ignore|versions)|dropbox|owncloud|nextcloud|tmp\.drive).*"
)
SYNCED_NAMES = re.compile(
    r"(dropbox|onedrive|google ?drive|icloud ?drive|mobile documents|nextcloud|owncloud|seafile)\b.*"
)


def check_place(directory: Path, *, mounts: Path = MOUNTS) -> None:
    """Refuse a folder that lies on a network file system or that something synchronises.

    Raises
    ------
    UnfitPlaceError
        With the reason and what to do.
    """
    place = directory.resolve()
    if str(place).startswith("\\\\"):
        raise UnfitPlaceError(directory, "it lies on a network share")
    kind = file_system(place, mounts)
    if kind is not None and NETWORK_TYPES.fullmatch(kind):
        raise UnfitPlaceError(directory, f"it lies on a network file system ({kind})")
    for folder in (place, *place.parents):
        marker = _synced_by(folder)
        if marker is not None:
            raise UnfitPlaceError(directory, f"it lies in a folder that is synchronised ({marker})")


def file_system(place: Path, mounts: Path = MOUNTS) -> str | None:
    """The type of the file system that a folder lies on, where the system tells."""
    try:
        lines = mounts.read_text(encoding="utf-8", errors="replace").splitlines()
    except OSError:
        return None
    found, longest = None, -1
    for line in lines:
        fields = line.split()
        if len(fields) < 3:
            continue
        point = Path(_unescaped(fields[1]))
        if place.is_relative_to(point) and len(point.parts) >= longest:
            found, longest = fields[2], len(point.parts)
    return found


def _unescaped(mount_point: str) -> str:
    return re.sub(r"\\([0-7]{3})", lambda match: chr(int(match[1], 8)), mount_point)


def _synced_by(folder: Path) -> str | None:
    if SYNCED_NAMES.fullmatch(folder.name.lower()):
        return folder.name
    try:
        names = [path.name for path in folder.iterdir() if path.name.startswith(".")]
    except OSError:
        return None
    return next((name for name in sorted(names) if SYNCED_MARKERS.fullmatch(name.lower())), None)
