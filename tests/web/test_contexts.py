"""Each page is filled from exactly the fields of its context: none is unknown, none is unused."""

import dataclasses
import importlib
import pkgutil

import pytest
from jinja2 import UndefinedError, meta, nodes

from fitwright.records.kinds import NotInThisJob
from fitwright.web import fits, forms, pages, rendering
from fitwright.web.rendering import environment

MODULES = [
    fits,
    forms,
    *(
        importlib.import_module(f"{pages.__name__}.{each.name}")
        for each in pkgutil.iter_modules(pages.__path__)
    ),
]
CONTEXTS = [
    each
    for module in MODULES
    for each in vars(module).values()
    if dataclasses.is_dataclass(each) and hasattr(each, "template") and each.__module__ == module.__name__
]
NOT_IN_JOB = NotInThisJob(subject="main.1", reason="only the pump is looked at")
NOT_SHOWN = {"Outcome", "Typed", "FitLines"}  # on the way to a page, never in a template


def names(context):
    return {field.name for field in dataclasses.fields(context)}


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
    """Names that a template and all that it includes or extends take from outside."""
    return set().union(*(meta.find_undeclared_variables(tree_of(each)) for each in reached_from(template)))


LOCAL = {
    # set by the template that includes the part: {% with %} and {% for %}
    "choices.html": {"row", "row_label"},
    "fit_line.html": {"line"},
    "options.html": {"groups"},
    "reading_form.html": {"form"},
    "blade_part.html": {"form"},
}


@pytest.mark.parametrize(
    "context", [each for each in CONTEXTS if each is not fits.FitLine], ids=lambda each: each.__name__
)
def test_a_template_takes_exactly_the_fields_of_its_context(context):
    local = set().union(*LOCAL.values())
    assert wanted(context.template) - local == names(context)


def test_every_template_belongs_to_a_page():
    reached = set().union(*(reached_from(context.template) for context in CONTEXTS))
    assert reached == set(environment().list_templates())


class Watched:
    """Stands for a part of a context; notes which of its fields a template reads."""

    def __init__(self, part, read):
        self._part, self._read = part, read

    def __getattr__(self, name):
        if name.startswith("__"):
            raise AttributeError(name)
        part = self._part
        assert name in names(part), f"{type(part).__name__} has no field {name}"
        self._read.add((type(part).__name__, name))
        return watched(getattr(part, name), self._read)


def watched(value, read):
    if dataclasses.is_dataclass(value):
        return Watched(value, read)
    if type(value) is tuple:
        return tuple(watched(each, read) for each in value)
    return value


@pytest.fixture
def read(monkeypatch):
    """The fields of parts that were read by the pages rendered in this test."""
    found = set()

    def render(context):
        values = {name: watched(getattr(context, name), found) for name in names(context)}
        return environment().get_template(context.template).render(values)

    monkeypatch.setattr(rendering, "render", render)
    return found


def parts():
    """Every dataclass that pages are made of, below the contexts."""
    for module in MODULES:
        for each in vars(module).values():
            if (
                dataclasses.is_dataclass(each)
                and each.__module__ == module.__name__
                and each not in CONTEXTS
                and each.__name__ not in NOT_SHOWN
            ):
                yield each


def test_every_field_of_every_part_is_shown_somewhere(client, asking, begun_shop, read):
    for address in (
        "/",
        "/builds/corrie-five?state=as-received",
        "/builds/brackengill-eleven",
        "/builds/corrie-five?state=both",
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
    assert begun.get("/builds/first").status_code == 200
    drop = begun_shop.entry(NOT_IN_JOB, build="first")
    begun_shop.write([drop])
    assert begun.get("/builds/first").status_code == 200
    every = {(part.__name__, name) for part in parts() for name in names(part)}
    line = {("FitLine", name) for name in names(fits.FitLine)}
    unused = (every | line) - read
    assert not unused


def test_an_unknown_name_in_a_template_is_an_error():
    with pytest.raises(UndefinedError):
        environment().from_string("{{ nothing_of_that_name }}").render()


def test_what_is_typed_is_escaped(client):
    fields = {"subject": "main.4.running_clearance", "value": '"><script>alert(1)</script>'}
    answer = client.post("/builds/corrie-five/readings", data=fields)
    assert answer.status_code == 403  # without the token, and yet shown again
    assert "<script>alert" not in answer.text
    assert "&lt;script&gt;alert(1)" in answer.text
