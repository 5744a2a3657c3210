"""A dossier held against its record: whatever somebody changes in a file is found, and named."""

from __future__ import annotations

import hashlib
import io
import json

import pytest
from pypdf import PdfReader
from pypdf.annotations import FreeText
from pypdf.generic import NameObject

from fitwright.dossier.asked import Asked
from fitwright.dossier.errors import NoDossierError
from fitwright.dossier.key import make_key
from fitwright.dossier.making import make_dossier
from fitwright.dossier.verify.against import ANOTHER_SHOP
from fitwright.records.chain import digest_of, hash_of
from fitwright.records.entry import Entry
from fitwright.wiring import open_shop, restore_shop
from fitwright.wiring.dossiers import material_of, verified_dossier
from tests.support.dossiers import (
    OTHER,
    OWN,
    painted_over,
    photo,
    reads,
    redrawn,
    saying,
    small_shop,
    with_attachment,
    with_data,
)

AGREES = "The document agrees with the record it was made from."
NOTHING = "That says nothing about the engine."


def verify(pdf):
    """Verify by itself, as on a machine that never saw the shop."""
    return verified_dossier(pdf, name="it.pdf")


def named(found, *words):
    """The findings that hold all these words."""
    return [each for each in found.findings if all(word in each.what for word in words)]


def test_a_true_one_agrees_and_says_that_this_says_nothing_about_the_engine(complete, owner):
    for made in (complete, owner):
        found = verify(made.pdf)
        assert found.sound, found.told
        assert found.told[0] == AGREES
        assert found.told[-1] == NOTHING
        assert found.head == made.head
        assert found.revision is None
        assert "a draft, not handed over" in found.told[1]
        assert "not signed" in " ".join(found.told)
        assert "left out" in " ".join(found.told), "what it cannot see is said"


# Entries.


def change_value(data):
    entry = next(each for each in data["entries"] if each["kind"] == "reading")
    entry["body"]["observation"]["value"]["si"] += 1e-6
    return entry["seq"]


def change_name(data):
    entry = next(each for each in data["entries"] if each["kind"] == "person")
    entry["body"]["name"] += "."
    return entry["seq"]


def change_time(data):
    entry = data["entries"][-1]
    entry["committed_at"] = "2030-01-01T00:00:00.000000Z"
    return entry["seq"]


def change_signer(data):
    entry = next(each for each in data["entries"] if each["kind"] == "reading")
    entry["person"] = "somebody else"
    return entry["seq"]


def take_out(data):
    entry = next(each for each in data["entries"] if each["kind"] == "reading")
    data["entries"].remove(entry)
    return entry["seq"]


def put_in(data):
    entry = dict(next(each for each in data["entries"] if each["kind"] == "reading"))
    carried = {each["seq"] for each in data["entries"]}
    entry |= {"seq": next(n for n in range(1, 99) if n not in carried), "id": "f" * 32}
    data["entries"] = sorted([*data["entries"], entry], key=lambda each: each["seq"])
    return entry["seq"]


def double(data):
    entry = next(each for each in data["entries"] if each["kind"] == "reading")
    data["entries"].insert(data["entries"].index(entry), entry)
    return entry["seq"]


def swap(data):
    at = next(n for n, each in enumerate(data["entries"]) if each["kind"] == "reading")
    entries = data["entries"]
    entries[at], entries[at + 1] = entries[at + 1], entries[at]
    return entries[at + 1]["seq"]


def exchange(data):
    """Two entries trade their numbers."""
    first, second = [each for each in data["entries"] if each["kind"] == "reading"][:2]
    first["seq"], second["seq"] = second["seq"], first["seq"]
    data["entries"].sort(key=lambda each: each["seq"])
    return first["seq"]


def file_under_another(data):
    entry = next(each for each in data["entries"] if each["kind"] == "reading")
    entry["build"] = OTHER
    return entry["seq"]


ENTRIES = [
    change_value,
    change_name,
    change_time,
    change_signer,
    take_out,
    put_in,
    double,
    swap,
    exchange,
    file_under_another,
]


@pytest.mark.parametrize("change", ENTRIES, ids=lambda each: each.__name__)
def test_an_entry_changed_is_named(complete, change):
    told = []
    found = verify(with_data(complete.pdf, lambda data: told.append(change(data))))
    assert not found.sound
    assert found.told[0] != AGREES
    assert found.told[-1] == NOTHING
    assert any(each.seq == told[0] for each in found.findings), (told, found.told)


def test_every_single_entry_is_watched(complete):
    """One changed letter in each entry, one after the other, is found at exactly that entry."""
    from fitwright.dossier.data import read_data
    from fitwright.dossier.verify.chain import chain_findings

    data = json.loads(complete.data)
    for at, entry in enumerate(data["entries"]):
        again = json.loads(complete.data)
        again["entries"][at]["id"] = "0" * 32 if entry["id"] != "0" * 32 else "1" * 32
        found = list(chain_findings(read_data(json.dumps(again), file="x")))
        assert {each.seq for each in found} == {entry["seq"]}


# The chain.


def test_a_digest_of_somebody_elses_entry_is_watched_too(complete):
    def change(data):
        carried = {each["seq"] for each in data["entries"]}
        other = next(n for n in range(1, len(data["digests"]) + 1) if n not in carried)
        data["digests"][other - 1] = "0" * 64

    assert named(verify(with_data(complete.pdf, change)), "lead to the head")


def test_digests_taken_out_put_in_or_reordered_are_found(complete):
    def drop(data):
        del data["digests"][-1]

    def add(data):
        data["digests"].append("0" * 64)

    def turn(data):
        data["digests"][0], data["digests"][1] = data["digests"][1], data["digests"][0]

    assert named(verify(with_data(complete.pdf, drop)), "the head is entry")
    assert named(verify(with_data(complete.pdf, add)), "the head is entry")
    assert len(named(verify(with_data(complete.pdf, turn)), "does not agree with its digest")) == 2


def test_another_head_is_found_on_every_page_that_shows_it(complete):
    """The whole chain made anew round a changed entry: the data agree with themselves, the pages do not."""

    def change(data):
        change_value(data)
        remake_chain(data)

    found = verify(with_data(complete.pdf, change))
    pages = len(PdfReader(io.BytesIO(complete.pdf)).pages)
    assert {each.page for each in found.findings if each.page} == set(range(1, pages + 1))


def remake_chain(data):
    """What somebody would do who writes a new record: every digest and the head again."""
    for each in data["entries"]:
        data["digests"][each["seq"] - 1] = digest_of(Entry(**each, previous_hash="", hash=""))
    head = "0" * 64
    for digest in data["digests"]:
        head = hash_of(head, digest)
    data["head"]["hash"] = head


# What entries hold.


def test_an_amount_that_does_not_read_as_it_stands_is_named(complete):
    found = verify(with_data(complete.pdf, lambda data: (change_value(data), remake_chain(data))))
    assert named(found, "stands as", "reads as")


def test_another_sheet_is_found(complete):
    def reword(data):
        (digest,) = data["sheets"]
        data["sheets"][digest] = data["sheets"][digest].replace("0.060 mm", "0.070 mm")

    def exchange_sheet(data):
        (digest,) = data["sheets"]
        text = data["sheets"].pop(digest).replace("0.060 mm", "0.070 mm")
        data["sheets"][hashlib.sha256(text.encode()).hexdigest()] = text

    assert named(verify(with_data(complete.pdf, reword)), "engine sheet", "was changed")
    found = verify(with_data(complete.pdf, exchange_sheet))
    assert named(found, "engine sheet", "is missing")
    assert named(found, "engine sheet", "no entry names")


def test_a_pin_is_refused_wherever_it_comes_from(complete):
    def add(data):
        body = {
            "person": "P", "salt": "aa" * 16, "hardened": "bb" * 32, "cost": 2**14, "block_size": 8,
            "parallel": 1, "vouched_by": None, "supersedes": None, "reason": None,
        }  # fmt: skip
        data["entries"][-1] |= {"kind": "PIN set", "body": body, "build": None}

    assert named(verify(with_data(complete.pdf, add)), "holds a PIN")


def test_a_revision_that_went_out_before_is_found(own_shop):
    own_shop.hand_over(OWN)
    second = own_shop.hand_over(OWN)
    found = verify(with_data(second.pdf, lambda data: data["asked"].update(revision=1)))
    assert named(found, "calls itself revision 1", "the last one before it was 1")


# Pages.


def test_a_figure_changed_on_a_page_is_named_with_what_the_record_gives(shop, complete):
    found = verify(saying(complete, "0.0500 mm", "0.0505 mm", shop.photo))
    assert [each.page for each in found.findings if each.page]
    assert named(found, "0.0505 mm", "where the record gives", "0.0500 mm")


def test_a_verdict_changed_on_a_page_is_named(shop, complete):
    assert named(verify(saying(complete, "– not measured", "✓ within", shop.photo)), "within")


def test_a_drawing_changed_on_a_page_is_named(shop, complete):
    found = verify(saying(complete, 'class="bar bar-within"', 'class="bar bar-outside"', shop.photo))
    assert named(found, "draws something else", "same words")


def test_marks_put_over_a_page_are_found_although_its_words_are_the_same(complete):
    found = verify(redrawn(complete.pdf, lambda writer: painted_over(writer, 1)))
    assert [each.page for each in found.findings] == [2]
    assert named(found, "page 2", "a mark put on it")


def test_a_note_stuck_on_a_page_is_found(complete):
    def stick(writer):
        writer.add_annotation(2, FreeText(text="0.07", rect=(60, 500, 260, 540)))

    assert [each.page for each in verify(redrawn(complete.pdf, stick)).findings] == [3]


def test_another_typeface_behind_the_same_words_is_found(complete):
    """Letters that look otherwise than they read."""

    def exchange(writer):
        fonts = writer.pages[1]["/Resources"]["/Font"]
        (inner,) = next(iter(fonts.values()))["/DescendantFonts"]
        held = inner.get_object()["/FontDescriptor"].get_object()
        name = "/FontFile2" if "/FontFile2" in held else "/FontFile3"
        stream = held[name].get_object()
        stream._data = stream.get_data().replace(b"glyf", b"glyg")
        del stream[NameObject("/Filter")]

    assert verify(redrawn(complete.pdf, exchange)).findings


def test_pages_taken_out_put_in_and_turned_round_are_found(complete):
    def drop(writer):
        writer.remove_page(1)

    def add(writer):
        writer.add_page(writer.pages[1])

    def turn(writer):
        kids = writer.root_object["/Pages"]["/Kids"]
        kids[0], kids[1] = kids[1], kids[0]
        writer.flattened_pages = None

    for change in (drop, add, turn):
        found = verify(redrawn(complete.pdf, change))
        assert found.findings, change.__name__
    assert named(verify(redrawn(complete.pdf, drop)), "pages, the record gives")


def test_a_file_saved_again_by_another_program_still_agrees(complete):
    found = verify(redrawn(complete.pdf, lambda writer: None))
    assert found.sound, found.told
    assert any("saved the file again" in each for each in found.notes)


def test_the_data_of_another_dossier_do_not_pass(shop, complete, owner):
    theirs = shop.dossier(OTHER, "complete")
    for other in (theirs, owner):
        assert verify(with_attachment(complete.pdf, other.data.encode())).findings


def test_a_photo_exchanged_is_found(own_shop):
    digest = own_shop.keep_photo(photo("white", form="JPEG"), "image/jpeg")
    from fitwright.records.kinds import Photo

    body = Photo(digest=digest, media_type="image/jpeg", caption="Another")
    own_shop.write([own_shop.entry(body, build=OWN)])
    made = own_shop.dossier(OWN, "complete")
    assert any("as the record has them" in each for each in verify(made.pdf).notes)

    def exchange(writer):
        for page in writer.pages:
            for held in page["/Resources"].get("/XObject", {}).values():
                stream = held.get_object()
                if hashlib.sha256(stream._data).hexdigest() == digest:
                    stream._data = photo("black", form="JPEG")

    found = verify(redrawn(made.pdf, exchange))
    assert named(found, f"photo {digest[:12]}", "exchanged")


# Signatures.


def signed(own_shop, tmp_path):
    signer = make_key(tmp_path)
    return signer, make_dossier(material_of(own_shop, OWN), Asked(OWN, revision=1), signer)


def test_a_signature_says_by_which_key_and_not_by_whom(own_shop, tmp_path):
    signer, made = signed(own_shop, tmp_path)
    found = verify(made.pdf)
    assert found.sound
    assert found.signed_by == signer.fingerprint
    assert "whose key that is, the file cannot say" in " ".join(found.told)


def test_a_signature_of_other_data_does_not_hold(own_shop, tmp_path):
    _, made = signed(own_shop, tmp_path)
    pdf = redrawn(made.pdf, lambda writer: None)
    text = made.data.replace("Make it last.", "Make it fast.")
    from tests.support.dossiers import with_named

    found = verify(with_named(pdf, "fitwright-dossier.json", text.encode()))
    assert named(found, "signature", "is not of these data")
    broken = verify(with_named(pdf, "fitwright-signature.json", b"{}"))
    assert named(broken, "attached as a signature is none")


# Against a shop.


def test_a_shop_that_has_gone_on_knows_its_dossier(own_shop):
    made = own_shop.hand_over(OWN, person="P")
    reads(own_shop, OWN, "fitted", None, "55.501")
    found = own_shop.verify_dossier(made.pdf, name="it.pdf")
    assert found.sound, found.told
    assert found.known_here
    told = " ".join(found.told)
    assert "gone on by 2 entries" in told
    assert "Handed over as revision 1" in told
    later = own_shop.hand_over(OWN)
    assert "Revision 2 has replaced it" in " ".join(own_shop.verify_dossier(made.pdf, name="x").told)
    assert own_shop.verify_dossier(later.pdf, name="x").sound


def test_a_strange_shop_does_not_know_it(own_shop, complete):
    """No fault of the document: it says that this shop's record can say nothing about it."""
    found = own_shop.verify_dossier(complete.pdf, name="it.pdf")
    assert found.known_here is False
    assert found.sound
    assert ANOTHER_SHOP in found.told


def test_a_record_that_went_another_way_since_is_a_finding(own_shop, tmp_path):
    """The same shop put back to before, and gone on otherwise: the head is no part of it any more."""
    own_shop.back_up(tmp_path / "before")
    reads(own_shop, OWN, "fitted", None, "55.046")
    made = own_shop.dossier(OWN)
    restore_shop(tmp_path / "before", tmp_path / "again")
    again = open_shop(tmp_path / "again")
    try:
        found = again.verify_dossier(made.pdf, name="it.pdf")
    finally:
        again.close()
    assert found.known_here is False
    assert named(found, "no part of this shop's record")


def test_what_was_left_out_with_all_that_is_said_of_it_only_the_shop_shows(own_shop):
    """The one thing that no document shows by itself: it is said, and the shop's record finds it."""
    from dataclasses import replace

    from fitwright.dossier.known import known_from

    bad = reads(own_shop, OWN, "fitted", None, "55.600")
    material = material_of(own_shop, OWN)
    kept = [each for each in material.known.entries if each.id != bad]
    forged = make_dossier(
        replace(material, known=known_from(OWN, kept, material.known.sheets)), Asked(OWN, "complete")
    )
    alone = verify(forged.pdf)
    assert alone.sound
    assert "left out" in " ".join(alone.told)
    seq = next(each.seq for each in own_shop.record.entries() if each.id == bad)
    found = own_shop.verify_dossier(forged.pdf, name="it.pdf")
    assert [each.seq for each in found.findings] == [seq]
    assert named(found, "is left out")


def test_the_same_form_twice_hands_over_once_and_a_revision_comes_again_as_it_stood(own_shop):
    first = own_shop.hand_over(OWN, "complete", "Letter", units="inch", entry_id="e" * 32)
    again = own_shop.hand_over(OWN, "complete", "Letter", units="inch", entry_id="e" * 32)
    assert again.revision == first.revision == 1
    assert again.pdf == first.pdf
    own_shop.hand_over(OWN)
    assert own_shop.handed_over(OWN, 1).pdf == first.pdf
    assert len(own_shop.bench(OWN).build.work.dossiers) == 2


# Other versions, other files.


ELSEWHERE = {"fitwright": "9.9", "typst": "9.9", "models": {}}


def test_other_versions_are_said_and_agree_where_they_draw_the_same(complete):
    found = verify(with_data(complete.pdf, lambda data: data.update(made_by=ELSEWHERE)))
    assert found.sound, found.told
    assert any("9.9" in each and "pages are the same" in each for each in found.notes)


def test_nobody_gets_a_drawing_past_by_naming_another_version(complete):
    """Words that agree say nothing of what is painted over them."""
    forged = redrawn(complete.pdf, lambda writer: painted_over(writer, 1))
    found = verify(with_data(forged, lambda data: data.update(made_by=ELSEWHERE)))
    assert not found.sound
    assert "what it draws could not be held against anything" in found.undecided[0]
    assert AGREES not in found.told


def test_other_versions_and_other_words_leave_it_open(shop, complete):
    made = {"fitwright": "9.9", "typst": "9.9", "models": {}}
    forged = saying(complete, "0.0500 mm", "0.0505 mm", shop.photo)
    found = verify(with_data(forged, lambda data: data.update(made_by=made)))
    assert not found.sound
    assert not found.findings
    assert "9.9" in found.undecided[0]
    assert "0.0505" in found.undecided[0]


@pytest.mark.parametrize(
    "content",
    [
        b"",
        b"hello",
        b"%PDF-1.7\n",
        b"%PDF-1.7\n%%EOF",
        b"%PDF-1.7\n1 0 obj<</Type/Catalog>>endobj\ntrailer<</Root 1 0 R>>",
    ],
    ids=["empty", "text", "head", "end", "catalogue"],
)
def test_what_is_no_dossier_is_refused_in_one_sentence(content):
    with pytest.raises(NoDossierError) as told:
        verify(content)
    assert str(told.value).startswith("it.pdf: ")
    assert "\n" not in str(told.value)


@pytest.mark.parametrize(
    "text",
    [
        b"",
        b"[]",
        b"{}",
        b'{"format": "fitwright dossier"}',
        b'{"format": "fitwright dossier", "version": 99}',
        b"\xff\xfe",
        b"[" * 100_000,
    ],
    ids=range(7),
)
def test_data_that_are_none_are_refused(complete, text):
    with pytest.raises(NoDossierError):
        verify(with_attachment(complete.pdf, text))


def test_a_file_cut_short_anywhere_is_refused_or_found(complete):
    for share in (0.3, 0.6, 0.9, 0.99):
        cut = complete.pdf[: int(share * len(complete.pdf))]
        try:
            found = verify(cut)
        except NoDossierError:
            continue
        assert not found.sound, share


def test_a_file_with_bytes_flipped_never_passes_as_the_same(complete):
    whole = complete.pdf
    for at in range(200, len(whole), len(whole) // 12):
        content = bytearray(whole)
        content[at] ^= 0x20
        try:
            found = verify(bytes(content))
        except NoDossierError:
            continue
        assert not found.sound or any("saved the file again" in each for each in found.notes), at


def test_a_shop_on_another_machine_is_not_needed(tmp_path, complete):
    """No shop, no folder: the file is enough."""
    other = small_shop(tmp_path / "other")
    other.close()
    assert verify(complete.pdf).sound
