"""What hangs on a file beside its pages: somebody who forges there is found as well."""

from __future__ import annotations

import io
import json

import pytest
from pypdf import PdfReader, PdfWriter
from pypdf.generic import (
    ArrayObject,
    DictionaryObject,
    NameObject,
    NumberObject,
    StreamObject,
    TextStringObject,
)

from fitwright.dossier import reading
from fitwright.dossier.around import around_differing
from fitwright.dossier.asked import Asked
from fitwright.dossier.errors import NoDossierError
from fitwright.dossier.key import checked_signature, make_key, signature_text
from fitwright.dossier.making import make_dossier
from fitwright.dossier.reading import ReadPdf
from fitwright.wiring.dossiers import material_of, verified_dossier
from tests.support.dossiers import OWN, redrawn, with_attachment, with_data


def verify(pdf):
    return verified_dossier(pdf, name="it.pdf")


def action(kind, name, what):
    return DictionaryObject({NameObject("/S"): NameObject(kind), NameObject(name): TextStringObject(what)})


def launch(writer):
    writer.root_object[NameObject("/OpenAction")] = action("/Launch", "/F", "something")


def script(writer):
    names = ArrayObject([TextStringObject("a"), action("/JavaScript", "/JS", "app.alert(1)")])
    writer.root_object["/Names"][NameObject("/JavaScript")] = DictionaryObject({NameObject("/Names"): names})


def chapter(writer):
    first = writer.root_object["/Outlines"]["/First"].get_object()
    first[NameObject("/Title")] = TextStringObject("All fits within")


def chapter_elsewhere(writer):
    """A chapter that leads to another page."""
    first = writer.root_object["/Outlines"]["/First"].get_object()
    first["/Dest"][0] = writer.pages[-1].indirect_reference


def read_aloud(writer):
    for held in writer._objects:
        if isinstance(held, DictionaryObject) and "/Alt" in held:
            held[NameObject("/Alt")] = TextStringObject("within")


def described(writer):
    held = writer.root_object["/Names"]["/EmbeddedFiles"]["/Names"][1].get_object()
    held[NameObject("/Desc")] = TextStringObject("signed by the engine maker")


def folder(writer):
    """Readers show the attachments instead of the pages."""
    writer.root_object[NameObject("/Collection")] = DictionaryObject()


def form(writer):
    writer.root_object[NameObject("/AcroForm")] = DictionaryObject()


def hidden_page(writer):
    page = DictionaryObject({NameObject("/Type"): NameObject("/Template")})
    names = ArrayObject([TextStringObject("a"), page])
    writer.root_object["/Names"][NameObject("/Templates")] = DictionaryObject({NameObject("/Names"): names})


AROUND = [
    launch, script, chapter, chapter_elsewhere, read_aloud, described, folder, form, hidden_page,
]  # fmt: skip


@pytest.mark.parametrize("change", AROUND, ids=lambda each: each.__name__)
def test_what_is_hung_on_a_file_is_found(complete, change):
    before = ReadPdf("a", complete.pdf)
    assert before.around(ReadPdf("b", redrawn(complete.pdf, lambda writer: None))) == ()
    assert ReadPdf("c", redrawn(complete.pdf, change)).around(before)


def test_it_is_told_as_a_finding(complete):
    found = verify(redrawn(complete.pdf, launch))
    assert [str(each) for each in found.findings] == [
        "Beside its pages the file has what happens when it is opened, not as the record gives it."
    ]


def test_another_title_is_found(complete):
    found = verify(redrawn(complete.pdf, lambda writer: writer.add_metadata({"/Title": "All within"})))
    assert ["All within" in each.what for each in found.findings] == [True]

    def in_packet(writer):
        stream = writer.root_object["/Metadata"].get_object()
        stream._data = stream.get_data().replace(b"with open points", b"all within, OK!!")

    assert verify(redrawn(complete.pdf, in_packet)).findings


def test_nothing_stands_in_the_data_that_is_not_held_against_anything(complete):
    told = json.loads(complete.data) | {"warranty": "for ever"}
    for text in (json.dumps(told), '{"entries":[],' + complete.data[1:], complete.data + "\n"):
        found = verify(with_attachment(complete.pdf, text.encode()))
        assert any("hold more than those of a dossier" in each.what for each in found.findings), text[:40]


def test_words_beside_a_signature_are_none(tmp_path, complete):
    text = signature_text(make_key(tmp_path), complete.data)
    assert checked_signature(text, complete.data).holds
    more = json.dumps(json.loads(text) | {"signed_for": "the engine maker"})
    assert checked_signature(more, complete.data) is None


def test_another_entry_is_not_the_head(shop, complete):
    pdf = with_data(complete.pdf, lambda data: data["head"].update(id="0" * 32))
    assert any("head is told as 00000000" in each.what for each in verify(pdf).findings)
    held = shop.verify_dossier(pdf, name="it.pdf")
    assert any("its head is told as 00000000" in each.what for each in held.findings)


def test_a_draft_does_not_pass_for_a_revision(own_shop):
    forged = make_dossier(material_of(own_shop, OWN), Asked(OWN, revision=1))
    assert verify(forged.pdf).sound  # by itself it may be the first
    found = own_shop.verify_dossier(forged.pdf, name="it.pdf")
    assert ["never handed that over" in each.what for each in found.findings] == [True]
    later = make_dossier(material_of(own_shop, OWN), Asked(OWN, revision=7))
    assert ["none went out before it" in each.what for each in verify(later.pdf).findings] == [True]
    assert own_shop.verify_dossier(own_shop.hand_over(OWN).pdf, name="it.pdf").sound


def test_an_object_of_the_same_number_and_another_generation_is_another(complete):
    """Two drawings under one number: what was seen once must not stand for both."""
    marks = reading._Marks()
    writer = PdfWriter(clone_from=PdfReader(io.BytesIO(complete.pdf)))

    class Reference:
        idnum = 7

        def __init__(self, generation, content):
            self.generation, self.content = generation, content

        def get_object(self):
            stream = StreamObject()
            stream._data = self.content
            return stream

    del writer
    assert marks._named(Reference(0, b"a")) == marks._named(Reference(0, b"b")), "worked out once"
    assert marks._named(Reference(0, b"a")) != marks._named(Reference(1, b"b"))


def test_an_encrypted_file_is_refused(complete):
    for word in ("", "word"):
        writer = PdfWriter(clone_from=PdfReader(io.BytesIO(complete.pdf)))
        writer.encrypt(word, "owner")
        out = io.BytesIO()
        writer.write(out)
        with pytest.raises(NoDossierError, match="encrypted"):
            verify(out.getvalue())


def test_pages_that_unpack_to_too_much_are_refused(complete, monkeypatch):
    monkeypatch.setattr(reading, "MOST_UNPACKED", 1000)
    with pytest.raises(NoDossierError, match="unpack to more"):
        ReadPdf("it.pdf", complete.pdf).drawn(0)
    monkeypatch.setattr(reading, "LARGEST_PAGE", 1000)
    with pytest.raises(NoDossierError, match="larger than one of a dossier"):
        ReadPdf("it.pdf", complete.pdf).words(0)


def test_rings_of_references_come_to_an_end(complete):
    def ring(writer):
        held = writer._add_object(DictionaryObject())
        held.get_object()[NameObject("/Next")] = held
        held.get_object()[NameObject("/Count")] = NumberObject(1)
        writer.root_object[NameObject("/Threads")] = held

    first, second = (PdfReader(io.BytesIO(redrawn(complete.pdf, ring))) for _ in range(2))
    assert list(around_differing(first, second)) == []
    assert list(around_differing(first, PdfReader(io.BytesIO(complete.pdf)))) == ["its Threads"]
