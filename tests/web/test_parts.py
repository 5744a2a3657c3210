"""The page Parts: every list, every form written, refused, sent twice; what it un-proves is said."""

import io
import re
from functools import partial

import pytest
from PIL import Image

from fitwright.records import kinds
from fitwright.records.errors import CannotWriteError
from fitwright.web import people
from fitwright.web.entering import controls, offers
from fitwright.web.pages.parts import (
    changed,
    happened,
    one,
    pictures,
    positions,
    said_so,
    show,
)
from tests.support.contexts import unread

CODE = "corrie-five"
PARTS = f"/builds/{CODE}/parts"
PHOTOS = f"/builds/{CODE}/photos"
UPPER_3, UPPER_4 = "main.3.shell_upper", "main.4.shell_upper"
SWAP = {"one": UPPER_3, "other": UPPER_4}
LISTS = ("", "said", "photos", "entered")


def picture(colour=(200, 180, 150), size=(640, 480), kind="JPEG"):
    out = io.BytesIO()
    Image.new("RGB", size, colour).save(out, kind)
    return out.getvalue()


def last(shop, count=1):
    return list(shop.record.entries())[-count:]


def ticked(page, name="dimension"):
    return set(re.findall(rf'name="{name}" value="([^"]*)" checked', page))


def form_filled(client, do, **asked):
    """The hidden fields of a form of the demo build, as the page gives them."""
    text = client.get(PARTS, params={"do": do, **asked}).text
    form = text[text.index('<form class="record"') : text.index("</form>")]
    return dict(re.findall(r'<input type="hidden" name="([\w:.]+)" value="([^"]*)"', form))


def sent_by(client, do, typed, **asked):
    """Sends one form as a person fills it in."""
    address = PHOTOS if do == "photo" else f"{PARTS}/{do}"
    return client.post(address, data=form_filled(client, do, **asked) | {"person": "builder"} | typed)


@pytest.fixture
def filled(client):
    return partial(form_filled, client)


@pytest.fixture
def send(client):
    return partial(sent_by, client)


# Looking.


@pytest.mark.parametrize("name", LISTS)
@pytest.mark.parametrize("code", ["corrie-five", "brackengill-eleven"])
def test_every_list_of_the_demo_is_shown(looking, code, name):
    answer = looking.get(f"/builds/{code}/parts", params={"list": name})
    assert answer.status_code == 200
    assert "The engine maker's manual and local codes govern" in answer.text.replace("&#39;", "'")


@pytest.mark.parametrize("name", LISTS)
def test_an_empty_build_says_what_to_do_next(asking, begun_shop, name):
    text = asking(begun_shop).get("/builds/first/parts", params={"list": name}).text
    said = {
        "": "Nothing was read yet",
        "said": "Nothing yet",
        "photos": "No photo yet",
        "entered": "Choose above what to enter",
    }
    assert said[name] in text


@pytest.mark.parametrize("path", ["parts", "parts/one?position=x", "photos/" + "0" * 64])
def test_a_build_that_is_not_there_is_said(asking, empty_shop, path):
    assert asking(empty_shop).get(f"/builds/nothing/{path}").status_code == 404


def test_positions_stand_by_station_with_the_parts_that_sit_there(looking):
    text = looking.get(PARTS).text
    order = [
        text.index(words) for words in ('id="at-mains"', "main-shell-4u", 'id="at-rods"', "rod-shell-4u")
    ]
    assert order == sorted(order)
    assert "C5-0117" in text
    assert "rework R1" in text
    assert "shim-290-04" in text  # fitted, and no longer on the shelf
    assert "pump-dowels-1" in text[text.index('id="shelf"') :]


FORMS = [
    "swap", "rework", "fit", "out", "part", "parts", "stated", "eye", "not-measured", "not-in-job", "note",
    "photo", "adopt", "choose",
]  # fmt: skip


@pytest.mark.parametrize("do", FORMS)
@pytest.mark.parametrize("code", ["corrie-five", "first"])
def test_every_form_opens_with_nothing_known(looking, asking, begun_shop, code, do):
    client = looking if code == CODE else asking(begun_shop)
    text = client.get(f"/builds/{code}/parts", params={"do": do}).text
    assert '<form class="record"' in text
    assert 'name="token"' in text or "Go on" in text


def test_the_page_of_a_position_tells_sizes_and_history(looking):
    text = looking.get(f"{PARTS}/one", params={"position": "block"}).text
    assert "rework R1 of block-c5-0117: Tunnel 4 honed again" in text
    assert "read at 6 of 6 places" in text
    assert "do=rework&amp;part=block-c5-0117" in text
    text = looking.get(f"{PARTS}/one", params={"part": "pump-dowels-1"}).text
    assert "On the shelf, in no position" in text
    assert "pump-dowels-1 taken out of Oil pump dowels" in text
    assert looking.get(f"{PARTS}/one", params={"part": "nothing"}).status_code == 404


def test_adopting_is_opened_by_its_address(looking):
    text = looking.get(PARTS, params={"adopt": "rod.1.running_clearance"}).text
    assert "<h2>Adopt a limit</h2>" in text
    assert "Rod 1 running clearance: within" in text
    assert re.search(r"p\. A-33 \(engine maker\): from 0\.040", text)


# What it un-proves, before and after.


def test_a_swap_says_what_it_un_proves_before_it_is_written(looking, shown_shop):
    before = shown_shop.bench(CODE).build.seq
    for path, asked in ((f"{PARTS}/swap/effects", SWAP), (PARTS, {"do": "swap", **SWAP})):
        text = looking.get(path, params=asked).text
        assert "5 readings are kept and then no longer used; 3 fits rest on them." in text
        assert "Main 4 running clearance</a>" in text
        assert "unproven, changed since" in text
    assert shown_shop.bench(CODE).build.seq == before


def test_an_unfinished_form_un_proves_nothing_yet(looking):
    text = looking.get(f"{PARTS}/swap/effects", params={"one": UPPER_3}).text
    assert "Here it will say what it un-proves" in text
    assert looking.get(f"{PARTS}/nothing/effects").status_code == 404


def test_without_script_a_form_is_looked_at_first(client, shop, filled):
    before = shop.record.head().seq
    text = client.post(f"{PARTS}/swap", data=filled("swap") | SWAP | {"look": "yes"}).text
    assert "5 readings are kept and then no longer used" in text
    assert f'<option value="{UPPER_4}" selected>' in text
    assert shop.record.head().seq == before


def test_a_swap_is_one_write_with_one_undo(client, shop, send):
    answer = send("swap", SWAP | {"reason": "numbers on the tangs"})
    assert answer.status_code == 200
    first, second = last(shop, 2)
    assert f"Kept as entries {first.seq} to {second.seq}" in answer.text
    assert "5 readings are kept and now no longer used" in answer.text
    assert {each.body["reason"] for each in (first, second)} == {"numbers on the tangs"}
    assert {each.person for each in (first, second)} == {"builder"}
    build = shop.bench(CODE).build
    assert (build.occupant(UPPER_3), build.occupant(UPPER_4)) == ("main-shell-4u", "main-shell-3u")
    text = client.get(PARTS).text
    assert re.search(r"Changed since: \d", text)
    assert "Main 4 upper shell changed since" in text
    assert "/measure/mains?" in text[text.index("changed-since") :]
    assert shop.assessor(CODE).verdict("main.4.running_clearance").reason.value == "changed since"
    undo = client.post(f"{PARTS}/back", data=_undo(answer.text))
    assert undo.status_code == 200
    build = shop.bench(CODE).build
    assert (build.occupant(UPPER_3), build.occupant(UPPER_4)) == ("main-shell-3u", "main-shell-4u")
    assert shop.assessor(CODE).verdict("main.4.running_clearance").reason is None
    assert "Everything read still speaks" in client.get(PARTS).text


def _undo(text):
    form = text[text.index('class="after"') :]
    return dict(
        re.findall(r'<input type="hidden" name="(\w+)" value="([^"]*)"', form[: form.index("</form>")])
    )


def test_a_form_sent_twice_counts_once(client, shop, filled):
    fields = filled("swap") | SWAP | {"person": "builder"}
    first = client.post(f"{PARTS}/swap", data=fields)
    seq = shop.record.head().seq
    again = client.post(f"{PARTS}/swap", data=fields)
    assert shop.record.head().seq == seq
    words = r"Kept as entries \d+ to \d+"
    assert re.search(words, first.text)[0] == re.search(words, again.text)[0]
    other = client.post(
        f"{PARTS}/swap", data=fields | {"one": "main.1.shell_upper", "other": "main.2.shell_upper"}
    )
    assert "Kept as entries" in other.text  # filled in anew: another swap
    assert shop.record.head().seq == seq + 2


def test_a_set_put_back_is_used_again_by_choice(client, shop, send):
    send("out", {"position": UPPER_4})
    send("fit", {"position": UPPER_4, "part": "main-shell-4u"})
    page = client.get(PARTS).text
    assert "taken out and put back since; used again only by choice" in page
    assert "do=choose&amp;dimension=main.4.fitted_bore" in page
    form = client.get(PARTS, params={"do": "choose", "dimension": "main.4.fitted_bore"}).text
    proposed = re.findall(r'name="(reading:\w+)" value="use" checked', form)
    assert len(proposed) == 2
    chosen = dict.fromkeys(proposed, "use") | {"decided": "use again"}
    refused = send("choose", chosen, dimension="main.4.fitted_bore")
    assert (refused.status_code, "A choice needs its reason" in refused.text) == (422, True)
    kept = send("choose", chosen | {"reason": "same shells"}, dimension="main.4.fitted_bore")
    assert "2 readings count again." in kept.text
    assert shop.assessor(CODE).verdict("main.4.running_clearance").reason is None
    body = last(shop)[0].body
    assert (body["choice"], len(body["entries"]), body["dimension"]) == ("use again", 2, "main.4.fitted_bore")


def test_one_reading_is_used_instead_of_another(shop, send):
    records = shop.bench(CODE).build.readings_of("main.4.journal")[:2]
    ids = [each.entry.id for each in records]
    fields = {"decided": "use instead", f"reading:{ids[0]}": "use", f"reading:{ids[1]}": "not"}
    answer = send("choose", fields | {"reason": "dirt"}, dimension="main.4.journal")
    assert answer.status_code == 200
    assert last(shop)[0].body["instead_of"] == [ids[1]]
    assert "Not taken" in send("choose", {"reason": "dirt"}, dimension="main.4.journal").text


def test_a_rework_retires_what_is_ticked(client, shop, send):
    ready = client.get(
        PARTS, params={"do": "rework", "part": "rod-4", "subject": "rod.4.running_clearance"}
    ).text
    assert ticked(ready) == {"rod.4.housing_bore", "rod.4.fitted_bore"}
    assert "In the record this work on it is called R9" in ready
    assert "Before metal comes off" in ready
    typed = {"change": "rework", "words": "Honed again", "dimension": "rod.4.housing_bore"}
    preview = client.get(f"{PARTS}/rework/effects", params=typed | {"part": "rod-4", "sizes": "asked"}).text
    assert "Rod 4 running clearance" in preview
    answer = send("rework", typed, part="rod-4")
    assert "Kept as entry" in answer.text
    entry = last(shop)[0]
    assert (entry.kind, entry.body["code"], entry.body["dimensions"]) == (
        "state",
        "R9",
        ["rod.4.housing_bore"],
    )
    assert "rework R9" in client.get(PARTS).text


@pytest.mark.parametrize(
    "do, typed, asked, says",
    [
        ("swap", {"one": UPPER_3}, {}, "Only one position is chosen"),
        ("swap", {"one": UPPER_3, "other": UPPER_3}, {}, "name two positions"),
        ("fit", {"position": UPPER_4}, {}, "Part or position is not chosen"),
        ("fit", {"position": UPPER_4, "part": "main-shell-4u"}, {}, "sits in main.4.shell_upper already"),
        ("out", {}, {}, "No position is chosen"),
        ("part", {}, {}, "A part on the shelf needs its code"),
        ("part", {"code": "main-shell-4u", "title": "x"}, {}, "A part main-shell-4u is there already"),
        ("parts", {}, {"station": "mains"}, "Nothing new was typed"),
        ("rework", {"words": "x"}, {"part": "rod-4"}, "What was done is not chosen"),
        ("rework", {"words": "x", "change": "repair"}, {"part": "rod-4"}, "No size is ticked"),
        ("rework", {"change": "replacement"}, {"part": "rod-4"}, "needs what was done"),
        ("stated", {"by": "x"}, {"dimension": "crank.stroke"}, "No size was typed"),
        ("stated", {"size": "84"}, {"dimension": "crank.stroke"}, "needs who states it"),
        ("stated", {"size": "84 bar", "by": "x"}, {"dimension": "crank.stroke"}, "84 bar"),
        ("eye", {}, {}, "No eye check is chosen"),
        ("eye", {"check": "mains.turns_by_hand"}, {}, "No answer is chosen"),
        ("eye", {"check": "mains.turns_by_hand", "answer": "yes", "photo": "x"}, {}, "no such photo"),
        ("not-measured", {}, {}, "Nothing is chosen"),
        ("not-measured", {"subject": "crank.stroke"}, {}, "needs its because"),
        ("not-in-job", {}, {}, "Nothing is named"),
        ("not-in-job", {"subject": "pmp"}, {}, "name one of: pump"),
        ("note", {}, {}, "A note needs its text"),
        ("note", {"text": "x", "subject": "pmp"}, {}, "No station, fit, part, sitting or step"),
        ("photo", {}, {}, "No photo was sent"),
        ("adopt", {"source": "x", "reason": "y"}, {"subject": "rod.1.running_clearance"}, "No source"),
        ("adopt", {}, {"subject": "rod.1.running_clearance"}, "No source is chosen"),
        ("back", {"entry": "f" * 32}, {}, "There is no such entry"),
        ("note", {"text": "x", "person": "nobody"}, {}, "Nobody here is"),
        ("note", {"text": "x", "entry_id": "zzz"}, {}, "The form has lost its number"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_refused_in_place_and_nothing_is_written(
    looking, shown_shop, do, typed, asked, says
):
    before = shown_shop.record.head().seq
    answer = sent_by(looking, do, typed, **asked)
    assert answer.status_code == 422
    assert says in answer.text.replace("&#34;", '"').replace("&#39;", "'")
    assert '<form class="record"' in answer.text
    assert shown_shop.record.head().seq == before


def test_a_refused_form_keeps_what_was_typed(looking):
    text = sent_by(looking, "note", {"text": "tang <marks>", "subject": "pmp"}).text
    assert "tang &lt;marks&gt;</textarea>" in text
    assert 'value="pmp"' in text


def test_a_form_of_an_earlier_run_is_not_taken(client, shop):
    before = shop.record.head().seq
    answer = client.post(f"{PARTS}/swap", data=SWAP | {"token": "x", "entry_id": "a" * 32})
    assert (answer.status_code, "earlier run" in answer.text) == (403, True)
    assert shop.record.head().seq == before


def test_a_full_disk_is_said_and_nothing_is_called_kept(shop, send, monkeypatch):
    def full(_, **_more):
        raise CannotWriteError("the disk is full", "free some space and send it again")

    monkeypatch.setattr(shop, "write", full)
    answer = send("note", {"text": "x"})
    assert answer.status_code == 503
    assert "Kept" not in answer.text.replace("Not kept", "")
    assert "x</textarea>" in answer.text


def test_an_unknown_form_is_not_here(client):
    assert client.post(f"{PARTS}/nothing").status_code == 404


def test_a_form_by_script_is_answered_alone(client, filled):
    fields = filled("note") | {"text": "Tang marks", "person": "builder"}
    answer = client.post(f"{PARTS}/note", data=fields, headers={"hx-request": "true"})
    assert "<html" not in answer.text
    assert "Kept as entry" in answer.text
    assert answer.cookies.get(people.COOKIE) == "builder"


# Everything that is entered.


def test_a_part_keeps_its_readings_under_its_code_and_another_does_not(client, shop, send):
    send("part", {"position": UPPER_4, "serial": "4-U"})
    entry = last(shop)[0]
    assert entry.body["code"] == "main-shell-4u"
    assert shop.assessor(CODE).verdict("main.4.running_clearance").reason is None
    answer = send(
        "part", {"position": UPPER_4, "code": "thin-1", "origin": "box 4", "words": "half thou more"}
    )
    change, part = last(shop, 2)
    assert (change.kind, change.body["part"], change.body["change"]) == (
        "state",
        "main-shell-4u",
        "replacement",
    )
    assert part.body["origin"] == "box 4"
    assert "now no longer used" in answer.text
    assert "main-shell-4u" in client.get(PARTS).text.partition('id="shelf"')[2]


def test_a_spare_is_entered_and_fitted_with_words(shop, send):
    send("part", {"code": "thin-2", "title": "Thin shell", "used": "yes"})
    assert last(shop)[0].body["used"] is True
    send("fit", {"position": UPPER_4, "part": "thin-2", "words": "half thou more"})
    change, fitting = last(shop, 2)
    assert (change.body["part"], fitting.body["part"]) == ("main-shell-4u", "thin-2")


def test_the_parts_of_a_station_are_entered_in_one_write(asking, begun_shop):
    client = asking(begun_shop)
    asked = {"do": "parts", "station": "mains"}
    text = client.get("/builds/first/parts", params=asked).text
    positions_asked = re.findall(r'name="serial:([^"]+)"', text)
    assert len(positions_asked) > 3
    hidden = dict(re.findall(r'<input type="hidden" name="(\w+)" value="([^"]*)"', text))
    before = begun_shop.record.head().seq
    typed = {f"serial:{name}": f"S{index}" for index, name in enumerate(positions_asked[:3])}
    answer = client.post("/builds/first/parts/parts", data=hidden | typed | {"origin": "box 3"})
    assert f"Kept as entries {before + 1} to {before + 3}" in answer.text
    build = begun_shop.bench("first").build
    assert {build.parts[name].body.serial for name in positions_asked[:3]} == {"S0", "S1", "S2"}
    assert build.occupant(positions_asked[0]) == positions_asked[0]


def test_one_label_states_the_size_of_many(shop, send):
    typed = {"size": "0.0879 in", "tolerance": "0.002", "by": "box label", "also": UPPER_4 + ".wall"}
    answer = send("stated", typed, dimension=UPPER_3 + ".wall")
    assert "0.0879 in (2.233 mm, 87.9 thou)" in answer.text
    one_, two = (each.body for each in last(shop, 2))
    assert (one_["dimension"], two["dimension"]) == (UPPER_3 + ".wall", UPPER_4 + ".wall")
    assert one_["size"]["si"] == pytest.approx(0.0879 * 0.0254)
    assert one_["tolerance"] == {"typed": "0.002", "unit": "mm", "decimals": 3, "si": 2e-6, "parser": 1}


def test_a_stated_size_that_looks_like_a_slip_is_doubted_before_it_is_written(looking):
    asked = {"dimension": "crank.stroke", "size": "8.4", "by": "drawing"}
    text = looking.get(f"{PARTS}/stated/effects", params=asked).text
    assert "8.4 mm (0.33 in). 8.4 mm would be 0.33 in; did you mean 84 mm?" in text
    assert "outside: below the lower limit" in text  # what it would do if it were meant


def test_sayings_are_entered_and_listed(client, shop, send):
    shown = {
        "eye": ({"check": "mains.turns_by_hand", "answer": "no", "words": "tight at 3"}, "eye check"),
        "not-measured": ({"subject": "crank.stroke", "because": "known from the drawing"}, "not measured"),
        "not-in-job": ({"subject": "camshaft.inlet", "reason": "sealed"}, "not in this job"),
    }
    for do, (typed, kind) in shown.items():
        assert send(do, typed).status_code == 200, do
        assert last(shop)[0].kind == kind
    text = client.get(PARTS, params={"list": "said"}).text
    for words in ("the sheet asks for yes", "tight at 3", "because known from the drawing", "sealed"):
        assert words in text


def test_a_limit_is_adopted_by_a_named_person(shop, send):
    subject = "rod.1.running_clearance"
    typed = {"source": "manual", "upper": "0.05", "reason": "racing"}
    source = next(iter(shop.bench(CODE).sheet.sources))
    answer = send("adopt", typed | {"source": source}, subject=subject)
    entry = last(shop)[0]
    assert (entry.kind, entry.body["adopted_by"], entry.body["upper"]["unit"]) == (
        "limit adopted",
        "builder",
        "mm",
    )
    assert "1 fit is judged otherwise." in answer.text
    refused = send("adopt", typed | {"source": source, "person": ""}, subject=subject)
    assert "say who adopts the limit" in refused.text


# Taken back and brought back.


def test_an_entry_is_taken_back_with_a_reason_and_brought_back(client, shop, send):
    send("note", {"text": "Wrong engine", "subject": "main.4.running_clearance"})
    entry = last(shop)[0]
    page = client.get(PARTS, params={"do": "back", "entry": entry.id}).text
    assert f"Takes back: entry {entry.seq}, note on Main 4 running clearance: Wrong engine" in page
    send("back", {"reason": "slip"}, entry=entry.id)
    assert last(shop)[0].body == {"entry": entry.id, "reason": "slip", "supersedes": None}
    listed = client.get(PARTS, params={"list": "photos"}).text
    assert "taken back by entry" in listed
    assert "Bring back" in listed
    assert "Wrong engine" in listed
    page = client.get(PARTS, params={"do": "back", "entry": entry.id}).text
    assert "Brings back" in page
    send("back", {}, entry=entry.id)
    assert shop.bench(CODE).build.ledger.effective(entry.id)


def test_taking_back_says_what_it_un_proves(looking, shown_shop):
    entry = next(each for each in shown_shop.record.entries(build=CODE) if each.kind == "state")
    text = looking.get(PARTS, params={"do": "back", "entry": entry.id}).text
    assert "Takes back: entry" in text
    assert "Main 4 running clearance" in text
    assert "count again then" in text


# Photos.


def test_a_photo_is_kept_shown_and_listed(client, shop, filled):
    fields = filled("photo") | {"caption": "Tang marks", "subject": UPPER_4, "person": "builder"}
    answer = client.post(PHOTOS, data=fields, files={"photo": ("a.jpg", picture(), "text/html")})
    assert "Kept as entry" in answer.text
    body = last(shop)[0].body
    assert (body["media_type"], body["caption"], body["subject"]) == ("image/jpeg", "Tang marks", UPPER_4)
    shown = client.get(f"{PHOTOS}/{body['digest']}")
    assert shown.headers["content-type"] == "image/jpeg"
    assert shown.headers["x-content-type-options"] == "nosniff"
    assert shown.headers["content-disposition"].startswith("inline; filename=")
    assert shown.content == shop.photo(body["digest"])
    small = client.get(f"{PHOTOS}/{body['digest']}?small=1")
    with Image.open(io.BytesIO(small.content)) as found:
        assert max(found.size) <= 480
    for path, asked in ((PARTS, {"list": "photos"}), (f"{PARTS}/one", {"position": UPPER_4})):
        assert "Tang marks" in client.get(path, params=asked).text
    client.post(
        f"{PARTS}/eye",
        data=filled("eye") | {"check": "mains.turns_by_hand", "answer": "yes", "photo": body["digest"]},
    )
    assert last(shop)[0].body["photo"] == body["digest"]


def test_the_same_photo_sent_twice_counts_once(client, shop, filled):
    fields = filled("photo")
    for _ in range(2):
        client.post(PHOTOS, data=fields, files={"photo": ("a.png", picture(kind="PNG"), "image/png")})
    assert [each.kind for each in last(shop, 2)].count("photo") == 1


@pytest.mark.parametrize("content", [b"<svg onload=alert(1)>", b"GIF89a", picture()[:200]])
def test_what_is_no_picture_is_not_kept(client, shop, filled, content):
    before = shop.record.head().seq
    answer = client.post(PHOTOS, data=filled("photo"), files={"photo": ("a.jpg", content, "image/jpeg")})
    assert answer.status_code == 422
    assert shop.record.head().seq == before


def test_a_photo_of_another_build_is_not_shown_here(client, shop, filled):
    client.post(PHOTOS, data=filled("photo"), files={"photo": ("a.png", picture(kind="PNG"), "image/png")})
    digest = last(shop)[0].body["digest"]
    assert client.get(f"{PHOTOS}/{digest}").status_code == 200
    assert client.get(f"/builds/brackengill-eleven/photos/{digest}").status_code == 404
    assert client.get(f"{PHOTOS}/..%2frecord.db").status_code == 404


def test_a_photo_taken_back_stays_visible(client, shop, send, filled):
    client.post(PHOTOS, data=filled("photo"), files={"photo": ("a.png", picture(kind="PNG"), "image/png")})
    entry = last(shop)[0]
    send("back", {"reason": "blurred"}, entry=entry.id)
    assert "blurred" in client.get(PARTS, params={"list": "photos"}).text
    assert client.get(f"{PHOTOS}/{entry.body['digest']}").status_code == 200


def test_no_field_of_a_part_is_left_unshown(client, shop, send, filled, read):
    client.post(
        PHOTOS,
        data=filled("photo") | {"subject": UPPER_4},
        files={"photo": ("a.png", picture(kind="PNG"), "image/png")},
    )
    digest = last(shop)[0].body["digest"]
    client.post(
        f"{PARTS}/eye", data=filled("eye") | {"check": "mains.turns_by_hand", "answer": "no", "photo": digest}
    )
    send("swap", SWAP)
    send("swap", {})
    for name in LISTS:
        client.get(PARTS, params={"list": name})
    for do, asked in (
        ("parts", {"station": "mains"}),
        ("choose", {"dimension": "main.4.fitted_bore"}),
        ("stated", {"dimension": "crank.stroke"}),
        ("rework", {"part": "rod-4"}),
        ("rework", {}),
    ):
        client.get(PARTS, params={"do": do, **asked})
    client.get(f"{PARTS}/one", params={"position": UPPER_4})
    left = unread([changed, controls, offers, happened, one], read)
    assert not left | unread([pictures, positions, said_so, show, people], read)


def test_entries_of_every_kind_of_this_page_are_told(client, shop, read):
    """The list of what happened knows every kind that the page can make."""
    made = {kinds.Part, kinds.Fitting, kinds.TakingOut, kinds.State, kinds.StatedSize, kinds.EyeCheck}
    assert made <= set(happened.SHOWN)
    assert client.get(PARTS, params={"list": "entered"}).text.count('class="what"') == show.MOST_ENTRIES
