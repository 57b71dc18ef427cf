"""Provenance: what an answer depends on, so that it can be asked for again."""

import hashlib
from dataclasses import dataclass
from typing import Annotated, Any

import orjson
from pydantic import Field

LARGEST_PLAIN = 1e21
SMALLEST_PLAIN = 1e-6


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
    kind = type(value)
    if kind is dict:
        found: dict[str, Any] = {}
        for key, inner in value.items():
            inner_kind = type(inner)
            if inner_kind is float:
                found[key] = _plain_number(inner)
            elif inner_kind is dict or inner_kind is list or inner_kind is tuple:
                found[key] = _plain_numbers(inner)
            else:
                found[key] = inner
        return found
    if kind is list or kind is tuple:
        return [_plain_numbers(inner) for inner in value]
    return _plain_number(value) if kind is float else value


def _plain_number(value: float) -> Any:
    # ECMAScript writes 32.0 as 32; orjson writes other floats of this range as ECMAScript does.
    if value.is_integer() and abs(value) < LARGEST_PLAIN:
        return int(value)
    if value != 0 and abs(value) < SMALLEST_PLAIN:
        return orjson.Fragment(_ecmascript_small(value))
    return value


def _ecmascript_small(value: float) -> str:
    """Write a number below 1e-6 as ECMAScript does: shortest digits, exponent without leading zeros."""
    mantissa, exponent = repr(value).split("e")
    return f"{mantissa}e{int(exponent)}"
