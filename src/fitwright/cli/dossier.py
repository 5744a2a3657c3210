"""`fitwright dossier` and what belongs to it: the key that signs, and a dossier verified."""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Literal

from cyclopts import Parameter

from fitwright.cli.errors import FOUND, OK, UsageError
from fitwright.cli.files import written
from fitwright.cli.shop import DEFAULT_DATA, Data, opened

if TYPE_CHECKING:
    from fitwright.dossier.making import Dossier
    from fitwright.dossier.verify import DossierVerification

LARGEST = 256 * 2**20


def dossier(
    build: str,
    /,
    *,
    output: Annotated[Path | None, Parameter(name=["--output", "-o"], help="The PDF file to write.")] = None,
    data: Data = DEFAULT_DATA,
    depth: Annotated[
        Literal["owner", "complete"], Parameter(help="A few pages for the owner, or everything.")
    ] = "owner",
    paper: Annotated[Literal["A4", "Letter"], Parameter(help="Paper to print on.")] = "A4",
    units: Annotated[
        Literal["mm", "inch"] | None, Parameter(help="Units to show; else those of the shop.")
    ] = None,
    hand_over: Annotated[
        bool, Parameter(negative="", help="Write the next revision, and that it went out, into the record.")
    ] = False,
    person: Annotated[str | None, Parameter(help="Who hands it over.")] = None,
    force: Annotated[bool, Parameter(negative="", help="Write over a file that is there.")] = False,
) -> int:
    """Write the dossier of a build as it stands; without --hand-over it is a draft, and says so.

    Nothing that is open keeps it from being written: it stands on the first page behind the cover. The
    file carries the entries that it was made from, so that anybody can verify it.

    Example: fitwright dossier corrie-five -o corrie-five.pdf --data demo
    """
    with opened(data) as shop:
        if output is not None:
            _refuse_existing(output, force=force)
        if hand_over:
            made = shop.hand_over(build, depth, paper, units=units, person=person)
        else:
            made = shop.dossier(build, depth, paper, units=units)
        file = output or Path(made.file_name)
        _refuse_existing(file, force=force)
        with written(file) as part:
            part.write_bytes(made.pdf)
    sys.stdout.writelines(f"{line}\n" for line in _told(made, file))
    return OK


def _refuse_existing(file: Path, *, force: bool) -> None:
    if file.exists() and not force:
        raise UsageError(f"{file} is there already: name another file, or say --force to write over it.")


def _told(made: Dossier, file: Path) -> list[str]:
    standing = f"revision {made.revision}" if made.revision is not None else "a draft"
    count = len(made.document.open_points)
    points = "no open points" if not count else f"{count} open point{'s' if count > 1 else ''}"
    lines = [f"{made.title}, {standing}, {made.pages} pages, {points}: {file}."]
    if made.signed_by is not None:
        lines.append(f"Signed with the key {made.signed_by}.")
    lines.append(f"Verify it anywhere with `fitwright verify {file}`.")
    return lines


def signing_key(
    *,
    data: Data = DEFAULT_DATA,
    make: Annotated[
        bool, Parameter(negative="", help="Make a key; dossiers handed over are signed then.")
    ] = False,
) -> int:
    """Show by which key this shop's dossiers are signed, or make one.

    The key is a file in the shop's folder that only its owner may read; a backup does not copy it. Tell
    its fingerprint to whoever shall know it by another way than the file: a signature says by which key,
    never by whom.

    Example: fitwright signing-key --data demo --make
    """
    from fitwright.dossier.key import KEY_NAME, make_key, signer_of

    with opened(data) as shop:
        folder = shop.record.directory
        signer = make_key(folder) if make else signer_of(folder)
    if signer is None:
        sys.stdout.write("This shop has no signing key; make one with --make. Dossiers go out unsigned.\n")
        return OK
    sys.stdout.write(f"Signing key {signer.fingerprint}, in {folder / KEY_NAME}.\n")
    return OK


def verify_file(file: Path, data: Path | None, *, as_json: bool) -> int:
    """Verify one dossier, and against a shop's record where its folder is named."""
    found = _verified(file, data)
    if as_json:
        json.dump(_as_data(found), sys.stdout, ensure_ascii=False, indent=1)
        sys.stdout.write("\n")
    else:
        sys.stdout.writelines(f"{line}\n" for line in found.told)
    return OK if found.sound else FOUND


def _verified(file: Path, data: Path | None) -> DossierVerification:
    from fitwright.wiring.dossiers import verified_dossier

    if file.stat().st_size > LARGEST:
        raise UsageError(f"{file} is larger than any dossier: name a file that `fitwright dossier` wrote.")
    content = file.read_bytes()
    if data is None:
        return verified_dossier(content, name=file.name)
    with opened(data) as shop:
        return verified_dossier(content, name=file.name, shop=shop)


def _as_data(found: DossierVerification) -> dict[str, object]:
    return {
        "sound": found.sound,
        "file": found.file,
        "build": found.build,
        "revision": found.revision,
        "head": {"seq": found.head.seq, "id": found.head.id, "hash": found.head.hash},
        "entries": found.entries,
        "pages": found.pages,
        "findings": [{"what": each.what, "seq": each.seq, "page": each.page} for each in found.findings],
        "undecided": list(found.undecided),
        "notes": list(found.notes),
        "signed_by": found.signed_by,
        "known_here": found.known_here,
    }
