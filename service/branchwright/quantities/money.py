"""Money: decimal amounts in a currency, and how they are rounded to its smallest coin.

Codes and digits after the point are those of ISO 4217, list one of the maintenance agency, as far as it gives digits;
metals, bond units and codes for testing have none and are left out.
"""

from collections.abc import Iterable
from decimal import ROUND_HALF_EVEN, ROUND_HALF_UP, Context, Decimal
from typing import Final, Literal, TypeAlias

Half: TypeAlias = Literal["up", "even"]

_TWO_DIGITS: Final = """
AED AFN ALL AMD AOA ARS AUD AWG AZN BAM BBD BDT BMD BND BOB BOV BRL BSD BTN BWP BYN BZD CAD CDF CHE CHF CHW CNY
COP COU CRC CUP CVE CZK DKK DOP DZD EGP ERN ETB EUR FJD FKP GBP GEL GHS GIP GMD GTQ GYD HKD HNL HTG HUF IDR ILS
INR IRR JMD KES KGS KHR KPW KYD KZT LAK LBP LKR LRD LSL MAD MDL MGA MKD MMK MNT MOP MRU MUR MVR MWK MXN MXV MYR
MZN NAD NGN NIO NOK NPR NZD PAB PEN PGK PHP PKR PLN QAR RON RSD RUB SAR SBD SCR SDG SEK SGD SHP SLE SOS SRD SSP
STN SVC SYP SZL THB TJS TMT TOP TRY TTD TWD TZS UAH USD USN UYU UZS VED VES WST XAD XCD XCG YER ZAR ZMW ZWG
"""
_NO_DIGITS: Final = "BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF"
_THREE_DIGITS: Final = "BHD IQD JOD KWD LYD OMR TND"
_FOUR_DIGITS: Final = "CLF UYW"

DIGITS: Final[dict[str, int]] = {
    code: digits
    for digits, codes in ((2, _TWO_DIGITS), (0, _NO_DIGITS), (3, _THREE_DIGITS), (4, _FOUR_DIGITS))
    for code in codes.split()
}
"""Digits after the point of every currency; most have hundredths."""

_ROOMY: Final = Context(prec=80)
"""Holds every amount that the fields of a request can come to, so that no rounding is refused."""

_WAYS: Final[dict[Half, str]] = {"up": ROUND_HALF_UP, "even": ROUND_HALF_EVEN}


def minor_digits(currency: str) -> int | None:
    """Return the digits after the point that a currency has; None where its code is not known.

    >>> minor_digits("USD"), minor_digits("JPY"), minor_digits("XXX")
    (2, 0, None)
    """
    return DIGITS.get(currency)


def rounded(amount: Decimal, digits: int, half: Half = "up") -> Decimal:
    """Return an amount with so many digits after the point; a half goes away from zero, or to the even digit.

    >>> rounded(Decimal("2.345"), 2), rounded(Decimal("2.345"), 2, "even"), rounded(Decimal("-2.345"), 2)
    (Decimal('2.35'), Decimal('2.34'), Decimal('-2.35'))
    """
    return amount.quantize(Decimal(1).scaleb(-digits), rounding=_WAYS[half], context=_ROOMY)


def total(amounts: Iterable[Decimal]) -> Decimal:
    """Return the sum of amounts; zero where there is none.

    >>> total([Decimal("0.10"), Decimal("0.20")])
    Decimal('0.30')
    """
    return sum(amounts, Decimal(0))
