"""Currencies against a published list, rounding by hand, and what a request may state as money."""

from decimal import Decimal
from typing import Any

import iso_4217
import pytest
from pydantic import TypeAdapter, ValidationError

from branchwright.quantities.money import DIGITS, minor_digits, rounded, total
from branchwright.questions.money_fields import Amount, Money, SignedAmount

ISO = pytest.mark.source("ISO 4217, list one of the maintenance agency, as the package iso-4217 carries it")
BY_HAND = pytest.mark.source("worked by hand")


@ISO
def test_digits_are_those_of_the_published_list() -> None:
    published = {
        currency.name: currency.subunit_exp
        for currency in iso_4217.Currency
        if currency.entities and currency.subunit_exp is not None
    }
    assert published == DIGITS


@ISO
def test_metals_funds_and_codes_for_testing_are_no_money_of_a_bill() -> None:
    assert [minor_digits(code) for code in ("XAU", "XDR", "XTS", "XXX", "ZZZ")] == [None] * 5


@BY_HAND
@pytest.mark.parametrize(
    "amount, digits, up, even",
    [
        ("2.345", 2, "2.35", "2.34"),
        ("2.355", 2, "2.36", "2.36"),
        ("-2.345", 2, "-2.35", "-2.34"),
        ("2.3449999", 2, "2.34", "2.34"),
        ("0.5", 0, "1", "0"),
        ("1.0005", 3, "1.001", "1.000"),
        ("999999999999.995", 2, "1000000000000.00", "1000000000000.00"),
        ("123456789012345678901234567890.125", 2, "123456789012345678901234567890.13", ...),
    ],
)
def test_rounding(amount: str, digits: int, up: str, even: Any) -> None:
    assert str(rounded(Decimal(amount), digits, "up")) == up
    if even is not ...:
        assert str(rounded(Decimal(amount), digits, "even")) == even


@BY_HAND
def test_ten_dimes_are_a_dollar() -> None:
    assert total([Decimal("0.10")] * 10) == Decimal(1)
    assert total([]) == 0


@pytest.mark.parametrize("text", ["0", "0.1234", "0.00000001", "999999999999.99999999", "12"])
def test_money_is_written_as_it_was_stated(text: str) -> None:
    adapter: TypeAdapter[Decimal] = TypeAdapter(Amount)
    assert adapter.dump_python(adapter.validate_python(text)) == text
    assert adapter.dump_json(adapter.validate_json(f'"{text}"')).decode() == f'"{text}"'


@pytest.mark.parametrize(
    "value",
    [
        0.12,
        1,
        True,
        None,
        "",
        " 1",
        "1e3",
        "1E999",
        "NaN",
        "Infinity",
        "-1",
        "+1",
        "01",
        ".5",
        "1.",
        "1,000",
        "0.123456789",
        "1234567890123",
        "١",
        "1\n",
    ],
)
def test_nothing_else_is_an_amount(value: Any) -> None:
    with pytest.raises(ValidationError):
        TypeAdapter(Amount).validate_python(value)


def test_a_sign_is_taken_where_the_field_has_one() -> None:
    adapter: TypeAdapter[Decimal] = TypeAdapter(SignedAmount)
    assert adapter.validate_python("-0.05") == Decimal("-0.05")
    with pytest.raises(ValidationError):
        adapter.validate_python("--1")


def test_an_answer_writes_no_exponent() -> None:
    adapter: TypeAdapter[Decimal] = TypeAdapter(Money)
    assert adapter.dump_python(Decimal("1E-8")) == "0.00000001"
    assert adapter.dump_json(Decimal("3E+5")) == b'"300000"'
    assert adapter.validate_json('"-2.50"') == Decimal("-2.50")
