"""The canonical JSON under every hash is what RFC 8785 says."""

import math
import struct

import pytest
import rfc8785

# Appendix B of RFC 8785: the bits of an IEEE 754 double, and its text.
NUMBERS = """
0000000000000000 0
8000000000000000 0
0000000000000001 5e-324
8000000000000001 -5e-324
7fefffffffffffff 1.7976931348623157e+308
ffefffffffffffff -1.7976931348623157e+308
4340000000000000 9007199254740992
c340000000000000 -9007199254740992
4430000000000000 295147905179352830000
44b52d02c7e14af5 9.999999999999997e+22
44b52d02c7e14af6 1e+23
44b52d02c7e14af7 1.0000000000000001e+23
444b1ae4d6e2ef4e 999999999999999700000
444b1ae4d6e2ef4f 999999999999999900000
444b1ae4d6e2ef50 1e+21
3eb0c6f7a0b5ed8c 9.999999999999997e-7
3eb0c6f7a0b5ed8d 0.000001
41b3de4355555553 333333333.3333332
41b3de4355555554 333333333.33333325
41b3de4355555555 333333333.3333333
41b3de4355555556 333333333.3333334
41b3de4355555557 333333333.33333343
becbf647612f3696 -0.0000033333333333333333
43143ff3c1cb0959 1424953923781206.2
"""


@pytest.mark.parametrize("bits, text", [line.split() for line in NUMBERS.strip().splitlines()])
def test_numbers_are_written_as_in_appendix_b(bits, text):
    (number,) = struct.unpack(">d", bytes.fromhex(bits))
    assert rfc8785.dumps(number).decode() == text


def test_keys_are_sorted_by_utf_16_units():
    # Section 3.2.3: the surrogate pair of U+1F600 comes before U+FB33.
    ordered = ["\r", "1", "\x80", "\u00f6", "\u20ac", "\U0001f600", "\ufb33"]
    written = rfc8785.dumps(dict.fromkeys(reversed(ordered)))
    assert written.decode() == '{"\\r":null,' + ",".join(f'"{key}":null' for key in ordered[1:]) + "}"


@pytest.mark.parametrize(
    "value",
    [math.nan, math.inf, 2**53, {1: 2}, "\ud800", object()],
    ids=["nan", "infinity", "2^53", "key", "surrogate", "object"],
)
def test_what_has_no_canonical_form_is_refused(value):
    with pytest.raises(rfc8785.CanonicalizationError):
        rfc8785.dumps(value)
