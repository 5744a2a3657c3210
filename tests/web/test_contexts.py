"""Each page is filled from exactly the fields of its context: none is unknown, none is unused."""

import re
from pathlib import Path

import pytest
from jinja2 import UndefinedError, meta, nodes

from fitwright.records.kinds import NotInThisJob
from fitwright.web import fit_lines, forms, frame
from fitwright.web.pages import both, choices, engine, fit, fits
from fitwright.web.rendering import environment
from tests.support.contexts import contexts, names, parts_shown, unread, web_modules

CONTEXTS = contexts()
NOT_IN_JOB = NotInThisJob(subject="main.1", reason="only the pump is looked at")


def tree_of(template):
    return environment().parse(environment().loader.get_source(environment(), template)[0])


def referred_to(template):
    """The templates that a template includes or extends, in every case of a choice."""
    for node in tree_of(template).find_all((nodes.Extends, nodes.Include)):
        for constant in node.find_all(nodes.Const):
            if str(constant.value).endswith(".html"):
                yield constant.value


def reached_from(template):
    found = {template}
    for other in referred_to(template):
        found |= reached_from(other)
    return found


def wanted(template):
    """Names that a template and all that it includes or extends take from the page's context."""
    return set().union(
        *(meta.find_undeclared_variables(tree_of(each)) - given(each) for each in reached_from(template))
    )


def given(template):
    """Names given by whoever includes a part; the part says so in its first line: {# given: row #}."""
    source = environment().loader.get_source(environment(), template)[0]
    said = re.match(r"\{# given: (.*?) #\}", source)
    return set(said[1].split(", ")) if said else set()


@pytest.mark.parametrize(
    "context", [each for each in CONTEXTS if each is not fit_lines.FitLine], ids=lambda each: each.__name__
)
def test_a_template_takes_exactly_the_fields_of_its_context(context):
    assert wanted(context.template) == names(context)


def test_every_template_belongs_to_a_page():
    reached = set().union(*(reached_from(context.template) for context in CONTEXTS))
    assert reached == set(environment().list_templates())


def test_every_field_of_every_part_is_shown_somewhere(client, asking, begun_shop, read):
    for address in (
        "/",
        "/builds/corrie-five",
        "/builds/corrie-five/fits?state=as-received",
        "/builds/brackengill-eleven/fits",
        "/builds/corrie-five/fits?state=both",
        "/builds/corrie-five/fits/valve.1.inlet.a.lash",
        "/builds/corrie-five/fits/main.4.running_clearance?state=as-received",
    ):
        assert client.get(address).status_code == 200, address
    fields = {"subject": "main.4.running_clearance", "place": "main.4.housing_bore|front/0"}
    page = client.get("/builds/corrie-five/fits/main.4.running_clearance").text
    token = page.partition('name="token" value="')[2].partition('"')[0]
    for value in ("60.512", "605.12"):
        answer = client.post("/builds/corrie-five/readings", data=fields | {"token": token, "value": value})
        assert answer.status_code == 200
    answered = {"token": token, "value": "560.12", "place": "main.4.journal|front/0", "answered-x": "keep"}
    client.post("/builds/corrie-five/readings", data=fields | answered)
    begun = asking(begun_shop)
    assert begun.get("/builds/first/fits").status_code == 200
    drop = begun_shop.entry(NOT_IN_JOB, build="first")
    begun_shop.write([drop])
    assert begun.get("/builds/first/fits").status_code == 200
    assert not unread([fit_lines, forms, frame, both, choices, engine, fit, fits], read)


def test_every_page_is_held_to_its_fields():
    """Each module of a page stands in a test of its own that no field of its parts is left unread."""
    held = "".join(
        line
        for path in Path(__file__).parent.glob("test_*.py")
        for line in path.read_text("utf-8").splitlines()
        if "unread([" in line
    )
    pages = [each.__name__.rpartition(".")[2] for each in web_modules() if parts_shown(each)]
    assert [name for name in pages if not re.search(rf"\b{name}\b", held)] == []


def test_an_unknown_name_in_a_template_is_an_error():
    with pytest.raises(UndefinedError):
        environment().from_string("{{ nothing_of_that_name }}").render()


def test_what_is_typed_is_escaped(client):
    fields = {"subject": "main.4.running_clearance", "value": '"><script>alert(1)</script>'}
    answer = client.post("/builds/corrie-five/readings", data=fields)
    assert answer.status_code == 403  # without the token, and yet shown again
    assert "<script>alert" not in answer.text
    assert "&lt;script&gt;alert(1)" in answer.text
