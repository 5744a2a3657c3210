from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitwright.model.chain import read_chain, write_chain
from fitwright.model.errors import ChainError
from fitwright.model.fit import ChainTerm

names = st.from_regex(r"[a-z_][a-z0-9_]{0,6}(\.[a-z0-9_]{1,5}){0,2}", fullmatch=True)
factors = st.one_of(st.just(1.0), st.integers(1, 9).map(float), st.integers(1, 9999).map(lambda n: n / 1000))
terms = st.builds(
    lambda factor, sign, name: ChainTerm(factor * sign, name), factors, st.sampled_from([1.0, -1.0]), names
)


def test_a_chain_reads_as_it_is_said() -> None:
    assert read_chain("main.4.housing_bore - 2 * main.4.wall - main.4.journal") == (
        ChainTerm(1.0, "main.4.housing_bore"),
        ChainTerm(-2.0, "main.4.wall"),
        ChainTerm(-1.0, "main.4.journal"),
    )


def test_spaces_and_typographic_signs_do_not_matter() -> None:
    assert read_chain("−2×a+b") == read_chain(" - 2 * a  +  b ")


@given(st.lists(terms, min_size=1, max_size=6))
@settings(max_examples=80)
def test_a_written_chain_reads_back(chain: list[ChainTerm]) -> None:
    assert read_chain(write_chain(tuple(chain))) == tuple(chain)


@given(st.text(alphabet="ab.1 +-*{}", max_size=15))
@settings(max_examples=200)
def test_any_text_is_a_chain_or_says_where_it_is_none(text: str) -> None:
    try:
        chain = read_chain(text)
    except ChainError as error:
        refused = error
    else:
        refused = None
    if refused is not None:
        assert 1 <= refused.position <= len(text) + 1
    else:
        assert chain
        assert all(term.coefficient for term in chain)


@pytest.mark.parametrize(
    "text, position, words",
    [
        ("", 1, "empty"),
        ("a b", 3, r"a \+ or - is missing"),
        ("a - ", 5, "ends where a dimension is wanted"),
        ("a - - b", 5, '"-" where a dimension'),
        ("a + 0 * b", 5, "factor of zero"),
        ("a + B", 5, '"B" where a dimension'),
        ("a / b", 3, "missing here"),
    ],
)
def test_the_error_names_the_character(text: str, position: int, words: str) -> None:
    with pytest.raises(ChainError, match=words) as caught:
        read_chain(text)
    assert caught.value.position == position
