"""`fitwright verify`, `backup` and `restore`: the record looked after."""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from cyclopts import Parameter

from fitwright.cli.errors import FOUND, OK, UsageError
from fitwright.cli.shop import DEFAULT_DATA, Data

if TYPE_CHECKING:
    from fitwright.wiring import Manifest, Verification


def verify(
    file: Annotated[Path | None, Parameter(help="A dossier; without one, the record of the shop.")] = None,
    /,
    *,
    data: Annotated[
        Path | None,
        Parameter(
            name="--data",
            env_var="FITWRIGHT_DATA",
            help="Folder of the shop; with a dossier, the shop whose record it is held against.",
        ),
    ] = None,
    as_json: Annotated[bool, Parameter(name="--json", negative="")] = False,
) -> int:
    """Check a record, or a dossier against the record it was made from.

    Of a record: every entry's digest, the chain, the head in its second place, the photos. Of a dossier:
    the same of the entries that it carries, and every page against what they give. Exits with 1 if
    anything does not agree. It speaks of the record, never of an engine.

    Example: fitwright verify corrie-five.pdf
    """
    if file is not None:
        from fitwright.cli.dossier import verify_file

        return verify_file(file, data, as_json=as_json)
    from fitwright.wiring import verify_shop

    data = (data or DEFAULT_DATA).expanduser()
    if not data.is_dir():
        raise UsageError(f"No shop in {data}: name its folder with --data.")
    found = verify_shop(data)
    if as_json:
        json.dump(_as_data(found), sys.stdout, ensure_ascii=False, indent=1)
        sys.stdout.write("\n")
    else:
        sys.stdout.writelines(f"{line}\n" for line in found.told)
    return OK if found.sound else FOUND


def _as_data(found: Verification) -> dict[str, object]:
    return {
        "sound": found.sound,
        "entries": found.chain.entries,
        "faults": [{"seq": each.seq, "entry": each.id, "what": each.what} for each in found.all_faults],
        "anchors": list(found.anchors),
        "database": list(found.database),
        "anchors_checked": found.anchors_checked,
        "typed_checked": found.typed_checked,
        "sheets_checked": found.sheets_checked,
        "photos_checked": found.photos_checked,
        "clock_steps": [{"seq": each.seq, "seconds": each.seconds} for each in found.clock_steps],
    }


def backup(to: Path, /, *, data: Data = DEFAULT_DATA) -> int:
    """Copy a shop, which may be in use, into a new folder with a manifest.

    Example: fitwright backup /media/stick/2031-05-04 --data demo
    """
    from fitwright.wiring import back_up_shop

    _say("Backed up", back_up_shop(data.expanduser(), to.expanduser()), to)
    return OK


def restore(backup_folder: Path, to: Path, /) -> int:
    """Bring a backup back into an empty folder, checked against its manifest.

    Example: fitwright restore /media/stick/2031-05-04 ~/fitwright
    """
    from fitwright.wiring import restore_shop

    _say("Restored", restore_shop(backup_folder.expanduser(), to.expanduser()), to)
    return OK


def _say(what: str, manifest: Manifest, to: Path) -> None:
    head = manifest.head.hash[:16] if manifest.head is not None else "none"
    sys.stdout.write(f"{what} {manifest.entries} entries in {to}; head {head}.\n")
    sys.stdout.writelines(f"Kept with a fault: {fault}\n" for fault in manifest.faults)
