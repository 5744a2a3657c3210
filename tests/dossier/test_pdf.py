"""The pages: readable by anybody's reader, by those who cannot see, in black and white, always the same."""

from __future__ import annotations

import io
import re

import pytest
from pypdf import PdfReader

from fitwright.dossier.asked import Asked
from fitwright.dossier.errors import PrintingError
from fitwright.dossier.glyphs import covered, printable
from fitwright.dossier.ink import inked
from fitwright.dossier.making import page_pictures
from fitwright.dossier.printing import Attached, pdf_of
from fitwright.dossier.tree import Heading, Words
from fitwright.drawing.qr import qr_drawing
from fitwright.records.canonical import canonical_text, parsed
from fitwright.records.kinds import BuildStarted, Note
from fitwright.wiring.dossiers import material_of
from tests.support import small_sheet
from tests.support.dossiers import OWN, changed, data_of


@pytest.fixture(scope="module")
def reader(complete):
    return PdfReader(io.BytesIO(complete.pdf))


def elements(reader):
    """Every element of the structure tree."""
    waiting = [reader.trailer["/Root"]["/StructTreeRoot"]]
    while waiting:
        held = waiting.pop()
        held = held.get_object() if hasattr(held, "get_object") else held
        if isinstance(held, list):
            waiting += held
        elif isinstance(held, dict):
            if "/S" in held:
                yield held
            if "/K" in held:
                waiting.append(held["/K"])


def test_it_is_tagged_named_and_in_a_language(reader, complete):
    root = reader.trailer["/Root"]
    assert root["/MarkInfo"]["/Marked"]
    assert root["/Lang"] == "en"
    assert reader.metadata.title == complete.title
    assert root["/ViewerPreferences"]["/DisplayDocTitle"]
    kinds = {each["/S"] for each in elements(reader)}
    assert {"/Table", "/TH", "/TD", "/TR", "/Figure", "/P"} <= kinds
    assert any(kind.startswith("/H") for kind in kinds)


def test_every_figure_has_a_text_that_says_the_same(reader):
    figures = [each for each in elements(reader) if each["/S"] == "/Figure"]
    assert len(figures) > 5
    assert all(str(each.get("/Alt", "")).strip() for each in figures)


def test_it_calls_itself_what_it_is_and_carries_its_typeface(reader):
    said = reader.trailer["/Root"]["/Metadata"].get_data().decode()
    assert "<pdfaid:part>3</pdfaid:part>" in said
    assert "<pdfaid:conformance>A</pdfaid:conformance>" in said
    assert "<pdfuaid:part>1</pdfuaid:part>" in said
    fonts = set()
    for page in reader.pages:
        for held in page["/Resources"]["/Font"].values():
            (inner,) = held["/DescendantFonts"]
            fonts.add(str(inner.get_object()["/BaseFont"]))
            assert {"/FontFile2", "/FontFile3"} & set(inner.get_object()["/FontDescriptor"].get_object())
    assert fonts
    assert all("IBMPlex" in each for each in fonts), fonts


def test_the_outline_leads_to_each_chapter(reader, complete):
    titles = [each.title for each in reader.outline if not isinstance(each, list)]
    assert titles == [each.title for each in complete.document.sections]


def test_the_head_and_the_build_stand_on_every_page(reader, complete):
    for page in reader.pages:
        said = " ".join(page.extract_text().split())
        assert complete.head.hash[:12] in said
        assert f"build {OWN}" in said
        assert "draft" in said
        assert "the engine maker's manual governs" in said
    whole = "".join("".join(page.extract_text().split()) for page in reader.pages)
    assert complete.head.hash in whole, "in full somewhere"


def test_all_that_the_tree_says_is_in_the_words_of_the_pages(reader, complete):
    said = re.sub(r"\s|\u200b", "", "".join(page.extract_text() for page in reader.pages))
    for each in complete.document.sections:
        assert re.sub(r"\s", "", each.title) in said
        for block in each.blocks:
            if isinstance(block, Heading):
                assert re.sub(r"\s", "", block.words) in said


def test_the_data_are_attached_and_are_those_of_the_dossier(reader, complete):
    (attached,) = reader.attachment_list
    assert attached.name == "fitwright-dossier.json"
    assert attached.content.decode() == complete.data
    assert data_of(complete.pdf)["asked"]["depth"] == "complete"


def test_the_same_record_gives_the_same_bytes(shop, complete, tmp_path):
    assert shop.dossier(OWN, "complete").pdf == complete.pdf
    assert shop.dossier(OWN, "owner").pdf != complete.pdf


def test_no_colour_carries_meaning(reader):
    """Grey, black and white only: whatever prints, prints all of it."""
    colours = re.compile(rb"(?:^|\s)((?:[0-9.]+\s+){3})(?:rg|RG|scn|SCN|sc|SC)(?=\s)")
    for page in reader.pages:
        for found in colours.findall(page.get_contents().get_data()):
            assert len(set(found.split())) == 1, found


@pytest.mark.parametrize("paper, size", [("A4", (595.3, 841.9)), ("Letter", (612.0, 792.0))])
@pytest.mark.parametrize("depth", ["owner", "complete"])
@pytest.mark.parametrize("units", ["mm", "inch"])
def test_both_papers_depths_and_units_print(shop, paper, size, depth, units):
    made = shop.dossier(OWN, depth, paper, units=units)
    page = PdfReader(io.BytesIO(made.pdf)).pages[0]
    assert (round(float(page.mediabox.width), 1), round(float(page.mediabox.height), 1)) == size


def test_pages_can_be_looked_at(shop):
    found = page_pictures(material_of(shop, OWN), Asked(OWN), dots_per_inch=30)
    assert len(found) >= 3
    assert all(each.startswith(b"\x89PNG") for each in found)


NAMES = [
    '#import "secret.typ": *',
    "]#panic[no",
    '"); #read("/etc/passwd") //',
    "$ x^2 $ *bold* _it_ `code` <label> @ref",
    "<script>alert(1)</script> &amp; ]]>",
    "a" * 4000,
    "word " * 700,
    "中文 عربى עברית \U0001f600 e\u0301 \u0142\u00f3d\u017a",
    "two\nlines\n\nand more",
    "-----\n= Heading\n- list\n/ term: x",
    "\\u{1F600} \\ \\n #{} #\"\" '''",
]


@pytest.mark.parametrize("words", NAMES, ids=range(len(NAMES)))
def test_whatever_people_write_is_only_words(own_shop, words):
    started = BuildStarted(code="x", title=words, sheet="", owner_words=words, engine_number=words[:60])
    own_shop.start_build("x", small_sheet.SHEET, started)
    own_shop.write([own_shop.entry(Note(text=words, subject="journal"), build="x")])
    made = own_shop.dossier("x", "complete")
    said = "".join(page.extract_text() for page in PdfReader(io.BytesIO(made.pdf)).pages)
    plain = re.sub(r"\s|\u200b|\u00a0", "", said)
    wanted = re.sub(r"\s|\u200b|\u00a0", "", printable(words))
    assert wanted[:60] in plain
    assert own_shop.verify_dossier(made.pdf, name="x").sound


def test_a_character_that_the_typeface_lacks_is_told_by_its_number():
    assert printable("a中b") == "a[U+4E2D]b"
    assert ord("✓") in covered()


def test_every_character_that_is_said_to_be_covered_prints(shop, complete):
    every = "".join(chr(each) for each in sorted(covered()))
    document = changed(complete.document, "Make it last.", every)
    assert pdf_of(document, Attached())


def test_what_does_not_print_is_a_failure(complete, monkeypatch):
    monkeypatch.setattr("fitwright.dossier.printing.printable_data", lambda value: value)
    with pytest.raises(PrintingError, match="could not be printed"):
        pdf_of(changed(complete.document, "Make it last.", "中"), Attached())


def test_no_drawing_has_a_colour_or_a_variable_left():
    for svg in (qr_drawing("x", "x"), '<svg class="limit-scale"></svg>', '<svg class="fig"></svg>'):
        assert "var(" not in inked(svg)
        assert {"".join(sorted(set(each))) for each in re.findall(r"#([0-9a-f]{6})", inked(svg))} <= {
            "0",
            "f",
            "2",
            "5",
            "c",
        }


def test_a_block_of_a_kind_that_nobody_knows_is_a_failure(complete, monkeypatch):
    monkeypatch.setattr(Words, "block", "wordz")
    with pytest.raises(PrintingError, match="a block of no kind"):
        pdf_of(complete.document, Attached())


def test_the_data_are_canonical(complete):
    assert canonical_text(parsed(complete.data)) == complete.data
