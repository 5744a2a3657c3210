"""Templates filled from context dataclasses; a template sees exactly the fields of its context."""

from __future__ import annotations

from dataclasses import fields
from functools import cache
from typing import Any, ClassVar, Protocol

from jinja2 import Environment, PackageLoader, StrictUndefined, select_autoescape
from starlette.responses import HTMLResponse


class Context(Protocol):
    """A page's context: a dataclass that names its template."""

    template: ClassVar[str]
    __dataclass_fields__: ClassVar[dict[str, Any]]


@cache
def environment() -> Environment:
    """The templates of this package; an unknown name is an error, text is escaped."""
    return Environment(
        loader=PackageLoader("fitwright.web"),
        autoescape=select_autoescape(),
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )


def render(context: Context) -> str:
    """The page or fragment of a context."""
    values = {field.name: getattr(context, field.name) for field in fields(context)}
    return environment().get_template(context.template).render(values)


def page(context: Context, *, status: int = 200) -> HTMLResponse:
    """The answer with a page."""
    # What no text can hold, half a character, is shown as its number: a page is never a fault for it.
    content = render(context).encode("utf-8", "backslashreplace")
    return HTMLResponse(content, status_code=status, headers={"cache-control": "no-store"})
