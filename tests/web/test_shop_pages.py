"""The pages of the shop: everything that `fitwright shop` does for the shop can be done there."""

import uuid

import pytest

from fitwright.web.pages.shop import (
    blade_row,
    blade_set,
    blades,
    echo,
    entering,
    facts,
    history,
    instrument,
    instruments,
    overview,
    people,
    provable,
    rules,
    setting,
    settings,
    sources,
    studies,
    study,
    study_result,
    taking_back,
)
from tests.support.contexts import unread
from tests.support.page_forms import action_of, form_of

LISTS = (
    "/shop",
    "/shop/people",
    "/shop/instruments",
    "/shop/instruments?kind=bore+gauge&units=inch",
    "/shop/settings",
    "/shop/blades",
    "/shop/blades?list=inch-26",
    "/shop/sources",
    "/shop/studies",
    "/shop/rules",
)
THINGS = (
    "/shop/people/builder",
    "/shop/instruments/B1",
    "/shop/instruments/K3",
    "/shop/instruments/P1",
    "/shop/settings?gauge=B1&all=yes",
    "/shop/settings/S-013",
    "/shop/blades/F1?blade=0.05",
    "/shop/blades/E2",
    "/shop/studies?gauge=M3&parts=3&people=2&repeats=2",
    "/shop/entries/4",
)


@pytest.fixture
def bench(asking, empty_shop):
    """A client of a shop in which nothing is entered yet."""
    return Client(asking(empty_shop), empty_shop)


@pytest.fixture
def demo(client, shop):
    return Client(client, shop)


class Client:
    """Sends the forms of pages as a person does: what stands in them, with some of it changed."""

    def __init__(self, http, shop):
        self.http, self.shop = http, shop

    def form(self, address, name):
        return form_of(self.http.get(address).text, name)

    def send(self, address, which, /, *, expect=200, **typed):
        page = self.http.get(address).text
        fields = form_of(page, which) | typed
        return self.post(action_of(page, which), fields, expect=expect)

    def post(self, address, fields, *, expect=200):
        plain = {key: value for key, value in fields.items() if value is not None}
        answer = self.http.post(address, data=plain)
        assert answer.status_code == expect, answer.text
        return answer.text

    @property
    def state(self):
        with self.shop.held():
            return self.shop.state

    @property
    def head(self):
        head = self.shop.record.head()
        return head.seq if head is not None else 0


def begun(bench, builder="Builder"):
    """A shop with a builder, a micrometer and a bore gauge."""
    bench.send("/shop/people", "person", name=builder, role="builder")
    bench.send("/shop/instruments?kind=outside+micrometer", "instrument", title="Micrometer 50 to 75 mm")
    bench.send("/shop/instruments?kind=bore+gauge", "instrument", title="Bore gauge")
    return bench


@pytest.mark.parametrize("address", LISTS)
def test_a_list_of_an_empty_shop_says_what_to_do_or_offers_it(bench, address):
    page = bench.http.get(address)
    assert page.status_code == 200
    assert 'class="next"' in page.text or "<form" in page.text


@pytest.mark.parametrize("address", [*LISTS, *THINGS])
def test_every_page_of_the_demo_opens(looking, address):
    assert looking.get(address).status_code == 200


@pytest.mark.parametrize(
    "address", ["people/no", "instruments/no", "settings/no", "blades/no", "studies/no", "entries/9999"]
)
def test_what_is_not_in_the_shop_is_said_so(looking, address):
    answer = looking.get(f"/shop/{address}")
    assert answer.status_code == 404
    assert "is in the shop" in answer.text


def test_an_empty_shop_leads_from_people_to_gauges_to_blades(bench):
    assert "Where to begin" in bench.http.get("/shop").text
    begun(bench)
    page = bench.http.get("/shop").text
    assert "Enter who measures: done" in page
    assert "Enter the blade sets</a>" in page
    bench.send("/shop/blades?list=metric-13", "blades")
    assert "Where to begin" not in bench.http.get("/shop").text


def test_a_person_is_entered_and_changed_and_two_of_one_name_stay_two(bench):
    page = bench.send("/shop/people", "person", name="Builder", role="builder", drag="0.004")
    assert "Kept as entry 1" in page
    assert bench.state.people["builder"].body.drag == pytest.approx(4e-6)
    bench.send("/shop/people", "person", name="Builder")
    assert set(bench.state.people) == {"builder", "builder-2"}
    bench.send("/shop/people/builder", "change", name="First builder")
    assert bench.state.people["builder"].body.name == "First builder"
    assert "name First builder, was Builder" in bench.http.get("/shop/people/builder").text


def test_an_instrument_begins_with_usual_figures_labelled_typical(bench):
    page = bench.send(
        "/shop/instruments?kind=outside+micrometer&units=inch", "instrument", title="Two to three"
    )
    body = bench.state.instruments["M1"].body
    assert (body.unit, body.typical) == ("in", True)
    assert body.resolution == pytest.approx(2.54e-6)
    assert "0.0001 in (0.0025 mm)" in page
    page = bench.http.get("/shop/instruments/M1").text
    assert "typical ones, not this gauge&#39;s own" in page
    assert "proves a band of" in page


def test_a_number_without_a_unit_is_in_the_gauge_s_own(bench):
    begun(bench)
    bench.send("/shop/instruments/M1", "calibration", uncertainty="0.0005", date="2031-01-13")
    bench.send("/shop/instruments/M1", "calibration", uncertainty="0.02 thou", certificate="TC 1")
    first, second = (held.body for held in bench.state.all_calibrations["M1"])
    assert (first.code, first.date) == ("C-M1-1", "2031-01-13")
    assert first.standard_uncertainty == pytest.approx(5e-7)
    assert second.standard_uncertainty == pytest.approx(0.02 * 2.54e-5)


def test_never_calibrated_is_an_answer_with_a_typical_uncertainty(bench):
    begun(bench)
    page = bench.send("/shop/instruments/M1", "calibration", never="yes")
    assert "is never calibrated, a typical 0.001 mm" in page
    assert bench.state.calibrations["M1"].body.never
    assert "never calibrated: a typical 0.001 mm" in bench.http.get("/shop/instruments/M1").text


def test_a_better_repeatability_narrows_the_band_and_the_old_one_stays_in_the_history(bench):
    begun(bench)

    def band():
        page = bench.http.get("/shop/instruments/M1").text
        return float(page.partition("proves a band of ")[2].partition(" mm")[0])

    before = band()
    bench.send("/shop/instruments/M1", "change", repeatability="0.0004 mm", reason="overhauled")
    assert band() < before
    page = bench.http.get("/shop/instruments/M1").text
    assert "repeatability 0.0004 mm (0.016 thou), was 0.001 mm (0.039 thou) (overhauled)" in page


@pytest.mark.parametrize(
    "address, form, typed, said",
    [
        ("/shop/people", "person", {"name": ""}, "Nobody is named"),
        ("/shop/people", "person", {"name": "A", "drag": "often"}, "often"),
        ("/shop/instruments?kind=scales", "instrument", {"title": ""}, "no title"),
        ("/shop/instruments?kind=scales", "instrument", {"title": "S", "resolution": "1 mm"}, "1 mm"),
        ("/shop/instruments?kind=scales", "instrument", {"title": "S", "code": "M1"}, "is there already"),
        ("/shop/instruments/M1", "calibration", {}, "uncertainty is missing"),
        ("/shop/instruments/M1", "change", {"range_low": "2", "range_high": "1"}, "exchange the two"),
        ("/shop/settings", "setting", {"size": "sixty"}, "sixty"),
        ("/shop/blades", "blades", {"title": "Set"}, "No blade is named"),
        ("/shop/blades", "blades", {"title": "S", "blades": ".0015 .002"}, "No blade is as thin"),
        ("/shop/blades", "blades", {"title": "S", "blades": "0.1 0.1"}, "there is only one blade 0.1"),
        ("/shop/rules", "rule", {"probability": "95"}, "between 0.5 and 1"),
        ("/shop/rules", "shown", {}, "Nothing was changed"),
        ("/shop/rules", "shown", {"time-zone": "Middle/Earth"}, "no time zone"),
        ("/shop/studies?gauge=M1", "study", {}, "too few"),
        ("/shop/entries/1", "take-back", {}, "The reason is missing"),
    ],
)
def test_a_form_that_cannot_stand_is_refused_in_one_sentence_and_keeps_what_was_typed(
    bench, address, form, typed, said
):
    begun(bench)
    before = bench.head
    fields = bench.form(address, form) | typed
    page = bench.post(address, fields, expect=422)
    assert "Not taken." in page
    assert said in page
    again = form_of(page, form)
    assert again["entry_id"] == fields["entry_id"]
    assert {name: again[name] for name in typed} == typed
    assert bench.head == before


@pytest.mark.parametrize(
    "address, form, typed",
    [
        ("/shop/people", "person", {"name": "Builder"}),
        ("/shop/instruments?kind=scales", "instrument", {"title": "Scales"}),
        ("/shop/instruments/M1", "calibration", {"uncertainty": "0.001"}),
        ("/shop/settings", "setting", {"instrument": "B1", "size": "60.5", "master": "M1"}),
        ("/shop/blades?list=metric-13", "blades", {}),
        ("/shop/rules", "shown", {"name": "Bench", "units": "inch", "time-zone": "Asia/Tokyo"}),
        ("/shop/entries/2", "take-back", {"reason": "twice"}),
    ],
)
def test_a_form_sent_twice_counts_once(bench, address, form, typed):
    begun(bench)
    fields = bench.form(address, form) | typed
    first = bench.post(address, fields)
    kept = bench.head
    second = bench.post(address, fields)
    assert bench.head == kept
    words = first.partition("Kept as ")[2].partition(":")[0]
    assert words
    assert f"Kept as {words}:" in second


def test_a_used_form_with_other_words_is_refused_and_given_a_fresh_id(bench):
    fields = bench.form("/shop/people", "person") | {"name": "Builder"}
    bench.post("/shop/people", fields)
    page = bench.post("/shop/people", fields | {"role": "boss"}, expect=409)
    assert "used for another entry before" in page
    assert form_of(page, "person")["entry_id"] != fields["entry_id"]


def test_a_form_of_an_earlier_run_is_refused_with_all_that_was_typed(bench):
    fields = bench.form("/shop/people", "person") | {"name": "Builder", "token": "old"}
    page = bench.post("/shop/people", fields, expect=403)
    assert form_of(page, "person")["name"] == "Builder"
    assert bench.head == 0


def test_nobody_is_taken_for_somebody(bench):
    begun(bench)
    page = bench.send("/shop/rules", "rule", expect=422, person="nobody")
    assert "Nobody here is &#34;nobody&#34;" in page


def test_a_gauge_is_set_in_another_in_its_last_setting(bench):
    begun(bench)
    bench.send("/shop/settings", "setting", instrument="M1", against="50 mm rod", zero="+0.002")
    bench.send("/shop/settings", "setting", instrument="B1", size="60.5", master="M1")
    body = bench.state.settings["S-002"].body
    assert (body.master, body.master_setting) == ("M1", "S-001")
    assert body.size.typed == "60.5"
    page = bench.http.get("/shop/settings/S-002").text
    assert "Micrometer 50 to 75 mm" in page
    page = bench.http.get("/shop/instruments/M1").text
    assert "A clearance between B1 and M1, in which it was set" in page


@pytest.mark.parametrize("answer, zero", [("−0.200 mm", -2e-4), ("0.200 mm", 2e-4), ("keep", 2e-4)])
def test_a_zero_beyond_what_the_gauge_allows_is_asked_for_its_sign(bench, answer, zero):
    begun(bench)
    before = bench.head
    fields = bench.form("/shop/settings", "setting") | {"instrument": "M1", "zero": "0.200"}
    page = bench.post("/shop/settings", fields)
    assert "A question first." in page
    assert "Does it rest below zero" in page
    assert bench.head == before
    asked = form_of(page, "setting")
    assert asked["zero"] == "0.200"
    assert asked["entry_id"] == fields["entry_id"]
    page = bench.post("/shop/settings", asked | {"answer_to_question": answer})
    assert "Kept as entries" in page
    assert bench.state.settings["S-001"].body.zero.si == pytest.approx(zero)


def test_a_drifted_setting_says_which_fits_it_un_proved_and_taking_it_back_proves_them_again(demo):
    def verdict():
        return demo.shop.assessment("corrie-five").verdicts["main.4.running_clearance"]

    before = verdict()
    assert before.verdict.value == "within"
    page = demo.send("/shop/settings/S-033", "check-back", drift="+0.006")
    assert "S-033 looked at again, 0.006 mm (0.2 thou) too much" in page
    assert "Main 4 running clearance" in page.partition("Kept as entry")[2].partition("</div>")[0]
    assert verdict().verdict.value == "unproven"
    page = demo.http.get("/shop/settings/S-033").text
    assert "Un-proved by its drift" in page
    assert "Drifted: shows 0.006 mm (0.2 thou) too much: what was read in it proves nothing" in page
    page = demo.http.get("/shop/settings?gauge=B1").text
    assert "drifted: shows" in page
    entry = demo.head
    demo.send(f"/shop/entries/{entry}", "take-back", reason="read on the wrong rod")
    assert verdict() == before
    page = demo.http.get(f"/shop/entries/{entry}").text
    assert "taken back by entry" in page
    assert "read on the wrong rod" in page
    demo.send(f"/shop/entries/{entry}", "take-back", reason="it was the right one")
    assert verdict().verdict.value == "unproven"


def test_blades_are_measured_and_set_apart_and_offered_no_more(bench):
    begun(bench)
    bench.send("/shop/blades?list=metric-13", "blades", missing="0.10")
    bench.send("/shop/blades/F1?blade=0.05", "measure", thickness="0.0512")
    blade = bench.state.blade("F1:0.05")
    assert blade.measured
    assert blade.thickness == pytest.approx(51.2e-6)
    bench.send("/shop/blades/F1", "apart", blade="0.15", state="missing", reason="bent")
    assert not bench.state.blade("F1:0.15").available
    page = bench.http.get("/shop/blades").text
    assert "1 measured, the others as marked, 2 missing or worn out" in page
    assert page.count('<span class="gone-word">missing</span>') == 2
    page = bench.send("/shop/blades/F1", "apart", expect=422, blade="0.15", state="missing")
    assert "Blade 0.15 is missing already" in page
    bench.send("/shop/blades/F1", "apart", blade="0.15", state="back")
    assert bench.state.blade("F1:0.15").available


@pytest.mark.parametrize("answer, thickness", [("0.0512 mm", 51.2e-6), ("keep", 512e-6)])
def test_a_blade_far_from_its_marking_is_asked(bench, answer, thickness):
    begun(bench)
    bench.send("/shop/blades?list=metric-13", "blades")
    page = bench.send("/shop/blades/F1", "measure", blade="0.05", thickness="0.512")
    assert "did you mean" in page
    bench.post("/shop/blades/F1", form_of(page, "measure") | {"answer_to_question": answer})
    assert bench.state.blade("F1:0.05").thickness == pytest.approx(thickness)


def test_the_whole_list_of_a_set_changes_nothing_that_was_not_changed(demo):
    for code in ("F1", "E1", "E2"):
        before = demo.state.blade_sets[code].body
        demo.send(f"/shop/blades/{code}", "change", reason="looked through")
        after = demo.state.blade_sets[code].body
        assert [each.marking for each in after.blades] == [each.marking for each in before.blades]
        for old, new in zip(before.blades, after.blades, strict=True):
            assert new.thickness == pytest.approx(old.thickness, rel=1e-9)
            assert new.standard_uncertainty == pytest.approx(old.standard_uncertainty, rel=1e-9)
            assert (new.measured, new.available) == (old.measured, old.available)


def test_changing_an_instrument_changes_nothing_that_was_not_changed(demo):
    for code in ("M1", "B1", "W1", "A1", "V1"):
        before = demo.state.instruments[code].body.model_dump()
        demo.send(f"/shop/instruments/{code}", "change")
        after = demo.state.instruments[code].body.model_dump()
        assert after == {
            name: pytest.approx(value, rel=1e-5) if isinstance(value, float) else value
            for name, value in before.items()
        }, code


def test_a_coarse_set_cannot_prove_the_pump_s_end_clearance_and_says_what_is_missing(looking):
    page = looking.get("/shop/blades/F1").text
    line = page.partition(">Pump end clearance<")[2].partition("</tr>")[0]
    assert "no, too coarse" in line
    assert "missing: a blade above 0.05 mm up to 0.0751 mm that does not go, beside 0.05" in line
    fine = looking.get("/shop/blades/F2").text.partition(">Pump end clearance<")[2].partition("</tr>")[0]
    assert "<strong>yes</strong>" in fine
    assert "0.04 goes and 0.05 does not" in fine


def test_a_gauge_says_of_each_fit_whether_it_can_prove_it_and_what_a_shared_master_gains(looking):
    page = looking.get("/shop/instruments/B1").text
    line = page.partition(">Main 1 running clearance<")[2].partition("</tr>")[0]
    assert "with B1 and M3" in line
    assert "if B1 is set in M3 first" in line
    assert "if B1 is set" not in page.partition(">Rod 1 running clearance<")[2].partition("</tr>")[0]
    coarse = looking.get("/shop/instruments/D2").text
    assert "Alone, read once, it proves a band of 0.3355 mm" in coarse


def test_sources_say_what_rests_on_them_and_rules_of_thumb_are_shown_apart(looking):
    page = looking.get("/shop/sources").text
    maker, thumb = (
        page.partition(title)[2].partition("</section>")[0] for title in ("manual", "of the trade")
    )
    assert "engine maker" in maker
    assert "195 of 195 fits" in maker
    assert "rule of thumb" in thumb
    assert 'class="station source-part thumb"' in page


def studied(bench, *, spread=1.0):
    """A study of M1 with two people, three parts and two repeats."""
    address = "/shop/studies?gauge=M1&people=2&parts=3&repeats=2"
    fields = bench.form(address, "study") | {"limit_band": "0.020"}
    for person in range(2):
        for part in range(3):
            for repeat in range(2):
                size = 55.990 + 0.006 * part + 0.001 * spread * person + 0.001 * spread * repeat
                fields[f"r-{person}-{part}-{repeat}"] = f"{size:.3f}"
    return bench.post(address, fields)


def test_a_study_is_kept_judged_and_taken_over_by_a_named_person_with_a_reason(bench):
    begun(bench)
    bench.send("/shop/people", "person", name="Apprentice")
    page = studied(bench)
    assert "Kept as entry" in page
    assert "The gauge in these hands takes" in page
    page = bench.http.get("/shop/studies/GS-1").text
    assert "one person on one part again" in page
    assert "55.990, 55.991" in page
    assert "of a band of 0.020 mm (0.8 thou)" in page
    refused = bench.send("/shop/studies/GS-1", "take-over", expect=422, reason="study", person="")
    assert "Nobody says so" in refused
    bench.send("/shop/studies/GS-1", "take-over", reason="two of us", which="repeatability", person="builder")
    body = bench.state.instruments["M1"].body
    assert body.repeatability == pytest.approx(0.0007e-3, rel=0.2)
    assert body.repeatability_degrees_of_freedom is not None
    assert body.reason == "two of us (study GS-1)"


@pytest.mark.parametrize(
    "address, form, typed",
    [
        ("/shop/instruments?kind=scales", "instrument", {"title": "Scales"}),
        ("/shop/studies?gauge=M1&people=2&parts=2&repeats=2", "study", {"code": ""}),
        ("/shop/settings?gauge=M1", "setting", {}),
        ("/shop/blades?list=metric-13", "blades", {}),
    ],
)
def test_what_came_of_a_form_stands_where_the_form_stood(bench, address, form, typed):
    begun(bench)
    page = bench.send(address, form, expect=422 if form == "study" else 200, **typed)
    assert 'class="said' in page.partition(f'id="form-{form}"')[2].partition("<details")[0]


def test_a_study_without_any_spread_gives_no_repeatability(bench):
    begun(bench)
    bench.send("/shop/people", "person", name="Apprentice")
    studied(bench, spread=0.0)
    page = bench.http.get("/shop/studies/GS-1")
    assert page.status_code == 200
    refused = bench.send(
        "/shop/studies/GS-1", "take-over", expect=422, reason="study", which="repeatability", person="builder"
    )
    assert "found no spread at all" in refused


def test_a_study_with_a_hole_names_who_and_which_part(bench):
    begun(bench)
    address = "/shop/studies?gauge=M1&people=2&parts=2&repeats=2"
    fields = bench.form(address, "study") | {
        f"r-{person}-{part}-{repeat}": "55.99"
        for person in range(2)
        for part in range(2)
        for repeat in range(2)
    }
    page = bench.post(address, fields | {"r-1-1-0": ""}, expect=422)
    assert "Person 2 has 1 readings of part 2, not 2" in page
    assert form_of(page, "study")["r-0-0-1"] == "55.99"


def test_a_stricter_rule_widens_what_must_lie_between_the_limits(demo):
    before = demo.http.get("/shop/instruments/M3").text.partition("proves a band of ")[2][:6]
    demo.send("/shop/rules", "rule", limit_class="normal", probability="0.99")
    after = demo.http.get("/shop/instruments/M3").text.partition("proves a band of ")[2][:6]
    assert float(after) > float(before)
    assert "normal ones from 0.99" in demo.http.get("/shop").text


def test_the_name_and_the_time_zone_of_the_shop_are_shown(bench):
    begun(bench)
    typed = {"name": "Bench", "time-zone": "Asia/Tokyo", "units": "mm"}
    page = bench.post("/shop/rules", bench.form("/shop/rules", "shown") | typed)
    assert "name is Bench; time zone is Asia/Tokyo" in page
    assert "<h1>Bench</h1>" in bench.http.get("/shop").text


@pytest.mark.parametrize(
    "asked, said",
    [
        ("x=0.002&of=mm", "0.002 mm (0.1 thou)"),
        ("x=.0001&unit=in", "0.0001 in (0.003 mm, 0.1 thou)"),
        ("x=many&of=mm", "many"),
        ("x=1&of=furlongs", "furlongs is no unit"),
        ("x=&of=mm", ""),
    ],
)
def test_a_number_is_echoed_in_both_units_before_it_is_taken(looking, asked, said):
    answer = looking.get(f"/shop/echo?echo=x&{asked}")
    assert answer.status_code == 200
    assert said in answer.text


def test_what_is_typed_is_escaped(bench):
    page = bench.send("/shop/people", "person", name="<script>alert(1)</script>", drag="no", expect=422)
    assert "<script>alert" not in page
    bench.send("/shop/people", "person", name="<script>alert(1)</script>")
    assert "<script>alert" not in bench.http.get("/shop").text


def test_an_entry_of_a_build_cannot_be_taken_back_as_one_of_the_shop(demo):
    with demo.shop.held():
        reading = next(iter(demo.shop.bench("corrie-five").build.readings.values())).entry
    fields = demo.form("/shop/entries/4", "take-back") | {"entry": reading.id, "reason": "no"}
    page = demo.post("/shop/entries/4", fields, expect=422)
    assert "names no entry of the shop" in page


def test_a_form_that_names_no_form_is_refused(bench):
    token = bench.form("/shop/people", "person")["token"]
    fields = {"token": token, "form": "nothing", "entry_id": uuid.uuid4().hex}
    assert bench.post("/shop/people", fields, expect=422)


def test_every_field_of_every_part_of_the_shop_is_shown_somewhere(demo, bench, read):
    for address in (*LISTS, *THINGS):
        demo.http.get(address)
        bench.http.get(address)
    begun(demo, builder="Another hand")
    studied(demo)
    for address in ("/shop/studies", "/shop/studies/GS-1", "/shop/echo?echo=x&x=1&of=mm"):
        demo.http.get(address)
    demo.send("/shop/settings/S-033", "check-back", drift="+0.006")
    demo.http.get("/shop/settings/S-033")
    demo.send("/shop/settings/S-013", "check-back", drift="+0.006")
    demo.http.get("/shop/settings/S-013")
    demo.send("/shop/blades/F1", "measure", blade="0.05", thickness="0.512")
    demo.send("/shop/blades/F1", "apart", blade="0.05", state="missing")
    demo.http.get("/shop/blades/F1")
    assert not unread([blade_row, blade_set, blades, echo, entering, facts, history, instrument], read)
    assert not unread([instruments, overview, people, provable, rules, setting, settings, sources], read)
    assert not unread([studies, study, study_result, taking_back], read)
