"""The page Dossier: open points first, files made beside the bench, signing, handing over."""

import io
import re
import threading
import time

import pytest
from PIL import Image

from fitwright.dossier import tree
from fitwright.dossier.errors import PrintingError
from fitwright.records import kinds
from fitwright.records.kinds import Person
from fitwright.web import dossier_work
from fitwright.web.dossier_work import DossierWork, Wanted
from fitwright.web.pages.dossier import document, files, papers, revisions, show, signing
from tests.support.contexts import unread
from tests.web.build_forms import form_on, sends

PAGE = "/builds/first/dossier"
FILE = f"{PAGE}/file?depth=owner&paper=A4"
HANDED = {"depth": "owner", "paper": "A4", "person": "builder"}
PATIENCE = 120.0


@pytest.fixture
def shop(begun_shop):
    """A shop with a build of which nothing is measured, and one person."""
    begun_shop.write([begun_shop.entry(Person(code="builder", name="Builder"))])
    return begun_shop


@pytest.fixture
def bench(asking, shop):
    return asking(shop)


def ready(client, address=PAGE):
    """A page once what it shows is made."""
    until = time.monotonic() + PATIENCE
    while time.monotonic() < until:
        answer = client.get(address)
        if answer.status_code != 202 and "The document is getting ready" not in answer.text:
            return answer
        time.sleep(0.1)
    raise AssertionError(f"{address} was not ready in {PATIENCE} s")


def signed(bench, **typed):
    return sends(bench, PAGE, "sign", {"meaning": "released", "person": "builder"} | typed)


def handed(bench, **typed):
    return sends(bench, PAGE, "hand-over", HANDED | typed)


def last(shop, kind):
    return [each for each in shop.record.entries() if each.kind == kind.kind][-1]


# The document.


def test_what_is_open_stands_first_and_all_of_it(bench, shop):
    page = ready(bench).text
    shown = shop.dossier_document("first")
    assert f"Open points: {len(shown.open_points)}" in page
    assert len(shown.open_points) > 3
    for point in shown.open_points:
        assert f"<strong>{point.title}</strong>" in page
    assert page.index("Open points:") < page.index("Take it away") < page.index("The document</h2>")
    assert "Draft, not handed over" in page


def test_the_document_is_the_same_words_as_on_paper(bench, shop):
    page = ready(bench, f"{PAGE}?depth=complete").text
    for section in shop.dossier_document("first", "complete").sections:
        if section.id != document.OPEN_POINTS:
            assert f"<h3>{section.title}</h3>" in page
        for block in section.blocks:
            if isinstance(block, tree.Words) and section.id != document.OPEN_POINTS:
                assert block.words.replace("&", "&amp;").replace("'", "&#39;") in page.replace("&#34;", '"')


def test_every_kind_of_block_is_shown():
    picture = tree.PhotoShown("0" * 64, "the crank", "as it came")
    scale = tree.Scale("fit", "maker", "1 to 2", "within", "1.5", ("note",), "<svg/>", "")
    column = (tree.Column("Who"), tree.Column("What", align="right", mono=True))
    blocks = (
        tree.Words("a word", "caution"),
        tree.Heading("a heading"),
        tree.Points(("a point",)),
        tree.Facts("facts", (("name", "fact"),)),
        tree.Table("table", column, (("across",), ("who", "what")), "a note"),
        tree.Scales("scales", (scale,)),
        tree.Drawing("<svg/>", "alt", "a caption"),
        tree.PhotosShown((picture,)),
    )
    assert {type(each) for each in blocks} == set(tree.Block.__args__)
    section = tree.Section("one", "One", blocks)
    shown = document._section(tree_of(section), section)
    assert [each.kind for each in shown.blocks] == [each.block for each in blocks]
    assert shown.blocks[4].rows[0].across
    assert not shown.blocks[4].rows[1].across


def tree_of(*sections):
    cover = tree.Cover("t", "s", "draft", (), "", "", (), "says", "head", "", "")
    return tree.Document(
        title="t",
        build="first",
        depth="owner",
        paper="A4",
        units="mm",
        draft=True,
        revision=None,
        as_of="now",
        foot="foot",
        cover=cover,
        open_points=(),
        sections=tuple(sections),
    )


def test_what_nothing_is_known_of_can_be_handed_over_all_the_same(asking, shop):
    assert "Nobody has signed it yet" in ready(asking(shop)).text


@pytest.mark.parametrize("path", ["", "/file"])
def test_a_build_that_is_not_there_is_said(asking, empty_shop, path):
    assert asking(empty_shop).get(f"/builds/nothing/dossier{path}").status_code == 404


# Made beside the bench.


def test_a_file_is_sent_to_be_kept_and_is_no_page_of_ours(bench):
    answer = ready(bench, FILE)
    assert answer.content[:5] == b"%PDF-"
    assert answer.headers["content-type"] == "application/pdf"
    assert re.fullmatch(r'attachment; filename="[A-Za-z0-9_.-]+\.pdf"', answer.headers["content-disposition"])
    assert answer.headers["x-content-type-options"] == "nosniff"
    assert "default-src 'none'" in answer.headers["content-security-policy"]
    assert "ready, " in bench.get(PAGE).text


class SlowShop:
    """A shop whose dossier is ready when somebody says so."""

    def __init__(self, shop):
        self.shop, self.position, self.go = shop, shop.position, threading.Event()

    def dossier(self, build, depth, paper, *, units):
        assert self.go.wait(PATIENCE)
        return self.shop.dossier(build, depth, paper, units=units)

    def dossier_document(self, build, depth, *, units):
        assert self.go.wait(PATIENCE)
        return self.shop.dossier_document(build, depth, units=units)


def test_while_it_is_made_nobody_waits(bench, shop, monkeypatch):
    slow = SlowShop(shop)
    monkeypatch.setattr(shop, "dossier", slow.dossier)
    monkeypatch.setattr(shop, "dossier_document", slow.dossier_document)
    page, file = bench.get(PAGE), bench.get(FILE)
    assert "The document is getting ready" in page.text
    assert file.status_code == 202
    assert file.headers["refresh"]
    assert "Getting ready" in file.text
    begun = time.monotonic()
    assert bench.get("/builds/first/fits").status_code == 200
    assert time.monotonic() - begun < PATIENCE / 4
    slow.go.set()
    monkeypatch.undo()
    assert ready(bench, FILE).content[:5] == b"%PDF-"


def test_what_is_made_is_kept_until_something_is_entered(shop):
    work, wanted = DossierWork(), Wanted("first", "owner", None, "mm")
    assert work.look(shop, wanted).state == "not made"
    first = work.ask(shop, wanted, wait=PATIENCE)
    assert work.look(shop, wanted).document is first.document
    shop.write([shop.entry(kinds.Note(text="new"), build="first")])
    assert work.look(shop, wanted).state == "not made"
    assert work.ask(shop, wanted, wait=PATIENCE).document is not first.document


def test_what_cannot_be_made_is_said_and_tried_again(shop, monkeypatch):
    work, wanted = DossierWork(), Wanted("first", "owner", "A4", "mm")

    def cannot(*_args, **_kwargs):
        raise PrintingError("no paper")

    monkeypatch.setattr(shop, "dossier", cannot)
    found = work.ask(shop, wanted, wait=PATIENCE)
    assert (found.state, found.wrong) == ("failed", "The dossier could not be printed: no paper.")
    assert papers.making_words(found).startswith("could not be made")
    monkeypatch.undo()
    assert work.ask(shop, wanted, wait=PATIENCE).state == "ready"


def test_no_more_is_kept_than_was_said(shop):
    work = DossierWork()
    for number in range(dossier_work.MOST + 3):
        wanted = Wanted("first", "owner", None, "mm", None)
        shop.write([shop.entry(kinds.Note(text=str(number)), build="first")])
        work.ask(shop, wanted, wait=PATIENCE)
    assert len(work._kept) == dossier_work.MOST


# Signing.


def test_a_lone_builder_signs_without_a_pin_and_may_say_that_he_looked_later(bench, shop):
    answer = signed(bench, later="yes", words="cold and hot")
    assert answer.status == 200, answer.said
    body = last(shop, kinds.Signature).body
    head = shop.record.head()
    assert (body["subject"], body["meaning"], body["later"]) == ("dossier", "released", True)
    assert body["seq"] == head.seq - 1
    page = ready(bench).text
    assert "Looked at again later, by the same person" in page
    assert body["hash"] in page
    assert "Nothing was entered for this build since" in page


def test_what_a_signature_speaks_for_is_said_before_and_what_came_after_it_is_counted(bench, shop):
    seq = shop.record.head().seq
    form, hidden, _ = form_on(bench, PAGE, do="sign")
    assert hidden["seen"] == str(seq)
    asked = {"meaning": "checked", "person": "builder", "seen": str(seq)}
    said = bench.get(f"{PAGE}/sign/effects", params=asked).text
    assert f"speak for the record up to entry {seq}" in said
    assert "open and stand in the dossier" in said
    assert "looked at it again later" in form
    signed(bench)
    shop.write([shop.entry(kinds.Note(text="after"), build="first", person="builder")])
    assert "Came after it: 1 note" in ready(bench).text


def test_what_came_since_the_form_was_opened_is_not_signed_unseen(bench, shop):
    _, hidden, action = form_on(bench, PAGE, do="sign")
    shop.write([shop.entry(kinds.Note(text="meanwhile"), build="first", person="builder")])
    answer = bench.post(action, data=hidden | {"meaning": "released", "person": "builder"})
    assert answer.status_code == 422
    assert "Entries came since this form was opened: look at them, then sign again" in answer.text
    assert not [each for each in shop.record.entries() if each.kind == kinds.Signature.kind]
    assert signed(bench).status == 200


def test_with_a_second_person_it_takes_the_pin_of_whoever_signs(bench, shop):
    shop.write([shop.entry(Person(code="second", name="Second"))])
    assert signed(bench).status == 422
    answer = signed(bench, pin_new="4711", pin_again="4711")
    assert answer.status == 200, answer.said
    assert signed(bench, pin="4712").status == 422
    assert signed(bench, pin="4711").status == 200
    assert "looked at it again later" not in form_on(bench, PAGE, do="sign")[0]


@pytest.mark.parametrize("typed", [{"meaning": ""}, {"person": ""}, {"meaning": "approved"}])
def test_a_signature_that_is_not_clear_is_refused(bench, shop, typed):
    assert signed(bench, **typed).status == 422
    assert not [each for each in shop.record.entries() if each.kind == kinds.Signature.kind]


# Handing over.


def test_it_goes_out_as_the_next_revision_and_both_stay_listed(bench, shop):
    form, _, _ = form_on(bench, PAGE, do="hand-over")
    assert "It goes out as revision 1." in form
    assert "open points stand in it" in form
    assert "Nobody has signed it" in form
    first = handed(bench)
    assert "Handed over as revision 1" in first.said
    signed(bench)
    assert "replaces revision 1" in form_on(bench, PAGE, do="hand-over")[0]
    second = handed(bench, depth="complete", paper="Letter")
    assert "Handed over as revision 2" in second.said
    page = ready(bench).text
    assert "Handed over: 2" in page
    assert "replaced by revision 2" in page
    assert last(shop, kinds.DossierWritten).body["data_digest"] in page
    assert "Came after it: 1 signature" not in page


def test_the_same_form_twice_hands_over_once(bench, shop):
    _, hidden, action = form_on(bench, PAGE, do="hand-over")
    answers = [bench.post(action, data=hidden | HANDED) for _ in range(2)]
    assert [each.status_code for each in answers] == [200, 200]
    assert sum(each.kind == kinds.DossierWritten.kind for each in shop.record.entries()) == 1


def test_a_revision_is_made_anew_as_it_went_out(bench, shop):
    handed(bench)
    digest = last(shop, kinds.DossierWritten).body["data_digest"]
    shop.write([shop.entry(kinds.Note(text="after"), build="first", person="builder")])
    answer = ready(bench, f"{FILE}&revision=1")
    assert answer.content[:5] == b"%PDF-"
    assert (
        digest in " ".join(shop.verify_dossier(answer.content, name="d.pdf").told)
        or shop.verify_dossier(answer.content, name="d.pdf").sound
    )
    assert bench.get(f"{FILE}&revision=9").status_code == 503 or ready(bench, f"{FILE}&revision=9")


def test_a_revision_that_comes_out_otherwise_is_not_passed_off_as_it(bench, shop, monkeypatch):
    handed(bench)
    other = shop.dossier("first")
    monkeypatch.setattr(shop, "handed_over", lambda _build, _revision: other)
    answer = ready(bench, f"{FILE}&revision=1")
    assert "is not the one that was handed over" in answer.text
    assert ready(bench, f"{FILE}&revision=1&anyway=yes").content == other.pdf


@pytest.mark.parametrize("typed", [{"depth": "all"}, {"paper": ""}, {"person": ""}, {"token": "old"}])
def test_what_is_not_clear_is_not_handed_over(bench, shop, typed):
    answer = handed(bench, **typed)
    assert answer.status in (403, 422)
    assert "Not handed over" in answer.said
    assert not [each for each in shop.record.entries() if each.kind == kinds.DossierWritten.kind]


def test_the_record_can_be_taken_away_in_every_form(bench):
    page = ready(bench).text
    for name in ("build.json", "build.xlsx", "readings.xlsx", "readings.csv"):
        address = f"/builds/first/record/{name}"
        assert address in page
        answer = bench.get(address)
        assert answer.status_code == 200
        assert answer.headers["content-disposition"].startswith("attachment")


def test_no_field_of_any_part_is_left_unshown(looking, bench, shop, read):
    ready(looking, "/builds/corrie-five/dossier?depth=complete")
    picture = io.BytesIO()
    Image.new("RGB", (64, 48), (200, 180, 150)).save(picture, "JPEG")
    digest = shop.keep_photo(picture.getvalue(), "image/jpeg")
    photo = kinds.Photo(digest=digest, media_type="image/jpeg", caption="the crank")
    shop.write([shop.entry(photo, build="first", person="builder")])
    signed(bench)
    handed(bench)
    shop.write([shop.entry(kinds.Note(text="after"), build="first", person="builder")])
    bench.get(FILE)
    ready(bench, f"{PAGE}?depth=complete")
    assert not unread([document, files, papers, revisions, show, signing], read)
