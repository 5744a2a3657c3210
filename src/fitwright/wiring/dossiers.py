"""Dossiers of a shop: made from a snapshot of its record, handed over, verified."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fitwright.assess.results import State
from fitwright.dossier.asked import Asked, Depth, Paper
from fitwright.dossier.data import sheets_named
from fitwright.dossier.errors import NoSuchRevisionError
from fitwright.dossier.key import signer_of
from fitwright.dossier.known import AtHand, known_from
from fitwright.dossier.making import Dossier, Material, make_dossier
from fitwright.dossier.resting import carried_entries
from fitwright.dossier.tree import Document
from fitwright.dossier.verify import DossierVerification, Tools, verify_dossier
from fitwright.dossier.verify.against import ShopRecord
from fitwright.formats.sheet import read_sheet
from fitwright.records.entry import Acknowledgement
from fitwright.records.kinds import DossierWritten
from fitwright.units import parse_quantity
from fitwright.units.families import Family

if TYPE_CHECKING:
    from fitwright.wiring.shop import Shop


def document(shop: Shop, build: str, depth: Depth, units: Family | None) -> Document:
    """The document of a build as it stands, without its pages."""
    return material_of(shop, build).document(Asked(build, depth, "A4", units or units_of(shop, build)))


def dossier(shop: Shop, build: str, depth: Depth, paper: Paper, units: Family | None) -> Dossier:
    """A draft; nothing is written."""
    asked = Asked(build, depth, paper, units or units_of(shop, build))
    return make_dossier(material_of(shop, build), asked)


def hand_over(
    shop: Shop,
    build: str,
    depth: Depth,
    paper: Paper,
    units: Family | None,
    *,
    person: str | None,
    entry_id: str | None,
) -> Dossier:
    """The next revision, signed where the shop has a key; that it went out is written down.

    The same `entry_id` again is the same revision again: a form sent twice hands over once.
    """
    material = material_of(shop, build)
    before = material.known.state.work.dossiers
    again = next((each.body for each in before if each.entry.id == entry_id), None)
    if again is not None:
        return handed_over(shop, build, again.revision)
    revision = max((each.body.revision for each in before), default=0) + 1
    asked = Asked(build, depth, paper, units or units_of(shop, build), revision)
    made = make_dossier(material, asked, signer_of(shop.record.directory))
    body = DossierWritten(
        revision=revision,
        depth=depth,
        paper=paper,
        units=asked.units,
        seq=made.head.seq,
        hash=made.head.hash,
        data_digest=made.data_digest,
        replaces=before[-1].body.data_digest if before else None,
    )
    shop.write([shop.entry(body, build=build, person=person, entry_id=entry_id)])
    return made


def handed_over(shop: Shop, build: str, revision: int) -> Dossier:
    """A revision made anew, from the record as it then stood.

    It is the same to the byte as long as program, typesetter, photos and signing key are the same; where
    its `data_digest` is not that of the entry, the program has become another one since.

    Raises
    ------
    NoSuchRevisionError
        If no such revision was handed over.
    """
    found = [each.body for each in shop.bench(build).build.work.dossiers if each.body.revision == revision]
    if not found:
        raise NoSuchRevisionError(build, revision)
    body = found[-1]
    asked = Asked(build, body.depth, body.paper, body.units or units_of(shop, build), revision)
    return make_dossier(material_of(shop, build, upto=body.seq), asked, signer_of(shop.record.directory))


def units_of(shop: Shop, build: str) -> Family:
    """The units of the shop, where it has set them; else those of the build's sheet."""
    wanted = shop.state.shop_setting("units") or shop.bench(build).sheet.engine.unit_family
    return "inch" if wanted == "inch" else "mm"


def verified_dossier(pdf: bytes, *, name: str, shop: Shop | None = None) -> DossierVerification:
    """A dossier held against the record it was made from, and against a shop's record if one is given."""
    tools = Tools(read_sheet, lambda text, unit: parse_quantity(text, default_unit=unit).si)
    record = ShopRecord(shop.record.entries, shop.photo) if shop is not None else None
    return verify_dossier(pdf, file=name, tools=tools, shop=record)


def material_of(shop: Shop, build: str, *, upto: int | None = None) -> Material:
    """A snapshot of the record, played again apart from what the shop shows meanwhile."""
    with shop.held():  # an unknown build is told here
        seen, reached = shop.position, {state: shop.assessor(build, state).reached for state in State}
    entries = [each for each in shop.record.entries() if upto is None or each.seq <= upto]
    carried = carried_entries(entries, build)
    named = sheets_named(carried)
    kept = shop.kept_for_dossiers
    at_hand = AtHand(
        desk=lambda fresh: kept.desk(build, fresh),
        reached=reached if entries[-1].seq == seen else {},
        past=kept.past(build),
    )
    known = known_from(build, carried, {digest: shop.sheet(digest) for digest in named}, at_hand)
    last = entries[-1]
    return Material(
        known=known,
        head=Acknowledgement(last.id, last.seq, last.hash),
        digests=kept.digests(entries),
        sheets={digest: shop.record.sheet_text(digest) for digest in named},
        photo=shop.photo,
        forms=kept.forms,
    )
