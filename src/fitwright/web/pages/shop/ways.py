"""The pages of the shop, their addresses, and the frame around them."""

from __future__ import annotations

from typing import Final
from urllib.parse import quote, urlencode

from fitwright.web.frame import Frame, frame_of
from fitwright.web.hands import Hands
from fitwright.web.pages.choices import Choice

SHOP: Final = "/shop"
WAYS: Final = (
    ("In short", ""),
    ("People", "/people"),
    ("Instruments", "/instruments"),
    ("Settings", "/settings"),
    ("Blades", "/blades"),
    ("Sources", "/sources"),
    ("Studies", "/studies"),
    ("Rules", "/rules"),
)


def shop_ways(here: str) -> tuple[Choice, ...]:
    """The row of pages of the shop; `here` is the label of the one that is open."""
    return tuple(Choice(label, SHOP + rest, label == here) for label, rest in WAYS)


def shop_frame(hands: Hands, title: str, *, live: bool = True) -> Frame:
    """The frame of a page of the shop."""
    return frame_of(
        hands, title, "Shop", help_page="shop", live=live, styles=("shop.css",), scripts=("shop.js",)
    )


def thing_address(part: str, code: str, **asked: str) -> str:
    """The page of a person, an instrument, a setting, a blade set or a study."""
    return f"{SHOP}/{part}/{quote(code, safe='')}" + (f"?{urlencode(asked)}" if asked else "")


def list_address(part: str, **asked: str) -> str:
    """A page that lists things of the shop, perhaps opened at something."""
    return f"{SHOP}/{part}" + (f"?{urlencode(asked)}" if asked else "")


def entry_address(seq: int) -> str:
    """The page of an entry of the shop, where it is taken back."""
    return f"{SHOP}/entries/{seq}"
