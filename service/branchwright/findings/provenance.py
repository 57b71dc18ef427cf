"""Provenance: what an answer depends on, so that it can be asked for again."""

import hashlib
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from types import NoneType
from typing import Annotated, Any

import orjson
from pydantic import Field

LEAST_WITH_EXPONENT = 1e21
SMALLEST_WITHOUT_EXPONENT = 1e-6
"""Between these ECMAScript writes a number without an exponent."""

LEAST_OF_A_SERIES = 64
"""From so many values on a list is tried as a series."""

INTEGERS_AS_THEY_ARE = 1e16
SMALLEST_ALIKE = 1e-4
"""Between these orjson and ECMAScript agree; outside numbers are written here."""


@dataclass(slots=True)
class Provenance:
    """The three things that an answer depends on."""

    engine_version: Annotated[str, Field(description="Version of the service that computed the answer.")]
    codebook_revision: Annotated[
        str, Field(description="SHA-256 over the codebook's files, first 16 digits.")
    ]
    input_sha256: Annotated[str, Field(description="SHA-256 of the RFC 8785 canonical form of the request.")]


def canonical_json(data: dict[str, Any]) -> bytes:
    """Return the RFC 8785 canonical form of a request body that passed its schema.

    Keys of our schemas are ASCII, so sorting by bytes is sorting by UTF-16 code units; numbers are written
    as ECMAScript does.
    """
    return orjson.dumps(_plain_numbers(data), option=orjson.OPT_SORT_KEYS)


def sha256_of(data: dict[str, Any]) -> str:
    """Return the SHA-256 of the canonical form, in hexadecimal."""
    return hashlib.sha256(canonical_json(data)).hexdigest()


def _plain_numbers(value: Any) -> Any:
    """Return the data with floats as ECMAScript would write them; every request passes here, so it is unrolled."""
    kind = value.__class__
    if kind is dict:
        found: dict[str, Any] = {}
        for key, inner in value.items():
            inner_kind = inner.__class__
            if inner_kind is float:
                found[key] = _plain_number(inner)
            elif inner_kind is dict or inner_kind is list or inner_kind is tuple:
                found[key] = _plain_numbers(inner)
            else:
                found[key] = inner
        return found
    if kind is list or kind is tuple:
        if len(value) >= LEAST_OF_A_SERIES:
            written = _series(value)
            if written is not None:
                return orjson.Fragment(written)
        return [_plain_numbers(inner) for inner in value]
    return _plain_number(value) if kind is float else value


def _series(values: Sequence[Any]) -> bytes | None:
    """Write a long list of readings at once; None where it holds anything that orjson and ECMAScript write apart."""
    if not set(map(type, values)) <= {float, NoneType}:
        return None
    sizes = [abs(value) if value else SMALLEST_ALIKE for value in values]
    if min(sizes) < SMALLEST_ALIKE or max(sizes) >= INTEGERS_AS_THEY_ARE:
        return None
    # Nothing but numbers and null stands there: ".0," can only end a whole number, and "-0," be the negative zero.
    written = orjson.dumps(values).replace(b".0,", b",").replace(b".0]", b"]")
    return written.replace(b"-0,", b"0,").replace(b"-0]", b"0]")


def _plain_number(value: float) -> Any:
    size = abs(value)
    # ECMAScript writes 32.0 as 32; in the middle range orjson writes fractions as ECMAScript does.
    if value.is_integer() and size < INTEGERS_AS_THEY_ARE:
        return int(value)
    if SMALLEST_ALIKE <= size < INTEGERS_AS_THEY_ARE:
        return value
    return orjson.Fragment(_as_ecmascript_writes(value))


def _as_ecmascript_writes(value: float) -> str:
    """Write a very large or very small number as ECMAScript does (ECMA-262, Number::toString)."""
    if SMALLEST_WITHOUT_EXPONENT <= abs(value) < LEAST_WITH_EXPONENT:
        digits = f"{Decimal(repr(value)):f}"
        return digits.removesuffix(".0")
    mantissa, exponent = repr(value).split("e")
    return f"{mantissa.removesuffix('.0')}e{int(exponent):+d}"
