"""The canonical form of a request is that of RFC 8785."""

import hashlib
import json

import pytest
import rfc8785
from hypothesis import given
from hypothesis import strategies as st
from tests.checks.effort import examples

from branchwright.findings import canonical_json, sha256_of

# What a request that passed its schema may hold: ASCII keys, numbers up to a million, whole or not, and texts.
numbers = st.one_of(
    st.integers(-1_000_000, 1_000_000),
    st.floats(-1_000_000, 1_000_000),
    st.floats(-1e-4, 1e-4),
    st.sampled_from((-0.0, 5e-324, 1e-7, 1e-6, 1e-5, 9.9e-5, 123456.789, 0.1 + 0.2, 1e6)),
)
texts = st.text(st.characters(exclude_categories=("Cs",)), max_size=12)
values = st.recursive(
    st.one_of(st.none(), st.booleans(), numbers, texts),
    lambda inner: st.one_of(
        st.lists(inner, max_size=4),
        st.dictionaries(st.from_regex(r"[a-z_]{1,8}", fullmatch=True), inner, max_size=4),
    ),
    max_leaves=12,
)


@pytest.mark.source("RFC 8785, as the package rfc8785 implements it")
@examples(400)
@given(st.dictionaries(st.from_regex(r"[a-z_]{1,8}", fullmatch=True), values, max_size=6))
def test_the_canonical_form_is_that_of_the_standard(request_body) -> None:
    assert canonical_json(request_body) == rfc8785.dumps(request_body)
    assert sha256_of(request_body) == hashlib.sha256(rfc8785.dumps(request_body)).hexdigest()


@pytest.mark.source("RFC 8785, section 3.2.2.3 and appendix B")
@pytest.mark.parametrize(
    "number, written",
    [
        (0.0, "0"),
        (-0.0, "0"),
        (48.0, "48"),
        (4.5, "4.5"),
        (2e-3, "0.002"),
        (1e-6, "0.000001"),
        (1e-7, "1e-7"),
        (5e-324, "5e-324"),
        (333333333.33333329, "333333333.3333333"),
        (1e20, "100000000000000000000"),
        (1e21, "1e+21"),
        (9007199254740994.0, "9007199254740994"),
    ],
)
def test_numbers_are_written_as_the_standard_does(number: float, written: str) -> None:
    assert canonical_json({"n": number}) == f'{{"n":{written}}}'.encode()


readings = st.one_of(
    st.none(),
    st.integers(-3000, 3000).map(float),
    st.floats(-1e4, 1e4).filter(lambda value: value == 0 or abs(value) >= 1e-4),
)
unlike = st.one_of(readings, st.floats(-1e22, 1e22), st.integers(-5, 5), texts, st.booleans())


@pytest.mark.source("RFC 8785, as the package rfc8785 implements it")
@examples(150)
@given(st.one_of(st.lists(readings, min_size=64, max_size=90), st.lists(unlike, min_size=64, max_size=90)))
def test_a_long_series_is_written_as_the_standard_does(series) -> None:
    body = {"energy_wh": tuple(series)}
    assert canonical_json(body) == rfc8785.dumps({"energy_wh": series})


@pytest.mark.source("RFC 8785, section 3.2.2.3")
def test_whole_numbers_and_zeros_of_a_series_are_written_without_a_point() -> None:
    series = [10.0, -0.0, 0.05, None, -20.0, 100.5, 0.0] * 10
    written = b"10,0,0.05,null,-20,100.5,0," * 10
    assert canonical_json({"a": series}) == b'{"a":[' + written[:-1] + b"]}"


def test_the_same_facts_in_another_order_and_spelling_have_the_same_hash() -> None:
    one = json.loads('{"a": 48, "b": [1, {"y": 2.0, "x": "\\u00e9"}]}')
    other = json.loads('{"b": [1.0, {"x": "é", "y": 2}], "a": 48.0}')
    assert sha256_of(one) == sha256_of(other)
    assert sha256_of(one) != sha256_of({**one, "a": 48.5})
