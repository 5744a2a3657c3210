"""The canonical JSON text of a body (RFC 8785), and reading it back."""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any

import rfc8785

SAFE_INTEGER = 2**53 - 1


def canonical_text(value: Mapping[str, Any]) -> str:
    """The RFC 8785 form of a JSON object.

    Raises
    ------
    ValueError
        If the value holds something that JSON cannot carry exactly: NaN, an infinity, an integer
        beyond 2**53, a half of a surrogate pair, a key that is not text.

    Examples
    --------
    >>> canonical_text({"unit": "mm", "si": 0.05, "decimals": 2})
    '{"decimals":2,"si":0.05,"unit":"mm"}'
    """
    return rfc8785.dumps(dict(value)).decode("utf-8")


def parsed(text: str) -> dict[str, Any]:
    """The JSON object in a canonical text; `canonical_text` of it is the same text again.

    RFC 8785 writes a float such as 1e20 without a point; it must come back as a float.

    Raises
    ------
    ValueError
        If the text is not one JSON object.
    """
    value = json.loads(text, parse_int=_number)
    if not isinstance(value, dict):
        message = "a body is one JSON object"
        raise ValueError(message)  # noqa: TRY004 - one error for all texts that are no body
    return value


def _number(digits: str) -> int | float:
    number = int(digits)
    return number if -SAFE_INTEGER <= number <= SAFE_INTEGER else float(digits)
