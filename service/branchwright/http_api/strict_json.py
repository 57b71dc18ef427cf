"""Strict JSON: bytes in, plain Python data out, and nothing that another reader would take differently.

RFC 8259 leaves duplicate names and very large numbers to each parser, and many parsers also take ``NaN`` and
``Infinity``. A request whose meaning depends on the parser is refused here, for the HTTP service and for the
command line alike.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterable
from typing import Final, cast

import jiter

from branchwright.findings.pointers import escaped

_LONGEST_REASON: Final = 160

_LOCATED = re.compile(r"^(?P<reason>.*) at line (?P<line>\d+) column (?P<column>\d+)$", re.DOTALL)
# A zero with a minus sign; it may also stand within a text, which does no harm.
_MINUS_ZERO = re.compile(rb"-0(?:\.0*)?(?:[eE][+-]?[0-9]+)?(?![0-9.])")
_NOT_A_NUMBER = re.compile(rb"[+-]?(?:NaN|nan|Infinity|infinity|Inf|inf)\b")

# Maps each byte to the class that matters for a number beyond the range of a 64-bit float.
_NUMBER_SHAPE: Final = bytes(
    ord("0")
    if chr(code).isascii() and chr(code).isdigit()
    else ord("e")
    if chr(code) in "eE"
    else ord("+")
    if chr(code) == "+"
    else ord(" ")
    for code in range(256)
)
_LONG_DIGIT_RUN: Final = b"0" * 200


class NotStrictJson(ValueError):
    """The bytes are not one strict JSON text.

    ``reason`` says why in plain words and quotes at most a short piece of the text. ``line`` and ``column``
    count from 1 and say where the parser stopped; both are ``None`` where the place is given by ``pointer``
    (an RFC 6901 JSON pointer) instead.
    """

    def __init__(
        self, reason: str, *, line: int | None = None, column: int | None = None, pointer: str | None = None
    ) -> None:
        """Say why and, where known, where."""
        self.reason = reason
        self.line = line
        self.column = column
        self.pointer = pointer
        super().__init__(self.describe())

    def describe(self) -> str:
        """The reason together with the place, as one phrase."""
        if self.pointer is not None:
            return f"{self.reason} at {self.pointer or 'the top level'}"
        if self.line is None:
            return self.reason
        return f"{self.reason} at line {self.line}, column {self.column}"


def parse(body: bytes) -> object:
    """Read one JSON text (RFC 8259, UTF-8) as dicts, lists, strings, numbers, booleans and None.

    There is one zero: -0 is read as 0, as its canonical form has it (RFC 8785, 3.2.2.3).

    Raises:
        NotStrictJson: for a syntax error, an empty body, a byte order mark, text after the value, a duplicate
            member name, a lone surrogate, nesting deeper than the parser's limit (200), ``NaN``, ``Infinity``
            and for a number beyond the range of a 64-bit float, such as ``1e999``.
    """
    try:
        data: object = jiter.from_json(body, allow_inf_nan=False, catch_duplicate_keys=True)
    except ValueError as error:
        raise _explain(error, body) from None
    if _may_overflow(body):
        pointer = _first_non_finite(data, "")
        if pointer is not None:
            raise NotStrictJson("number beyond the range of a 64-bit float", pointer=pointer)
    return _without_minus_zero(data) if _MINUS_ZERO.search(body) else data


def _may_overflow(body: bytes) -> bool:
    """Whether a number in the text could exceed a 64-bit float (a cheap test that may err on the safe side).

    The largest finite value is below 1.8e308. Fewer than 200 digits stay below 1e200, so an overflow then
    needs an exponent above 108, hence three digits after the ``e``; everything else has 200 digits in a row.
    """
    shape = body.translate(_NUMBER_SHAPE)
    return b"e000" in shape or b"e+000" in shape or _LONG_DIGIT_RUN in shape


def _first_non_finite(value: object, pointer: str) -> str | None:
    """The JSON pointer of the first number that is not finite. Depth is bounded by the parser's own limit."""
    if isinstance(value, float):
        return None if math.isfinite(value) else pointer
    members: Iterable[tuple[str | int, object]]
    if isinstance(value, dict):
        members = cast("dict[str, object]", value).items()
    elif isinstance(value, list):
        members = enumerate(cast("list[object]", value))
    else:
        return None
    for token, member in members:
        found = _first_non_finite(member, f"{pointer}/{escaped(str(token))}")
        if found is not None:
            return found
    return None


def _without_minus_zero(value: object) -> object:
    """The same value, changed in place, with every zero a plain one."""
    if isinstance(value, float):
        return value + 0.0
    if isinstance(value, dict):
        members = cast("dict[str, object]", value)
        members.update({name: _without_minus_zero(member) for name, member in members.items()})
        return members
    if isinstance(value, list):
        items = cast("list[object]", value)
        items[:] = map(_without_minus_zero, items)
        return items
    return value


def _explain(error: ValueError, body: bytes) -> NotStrictJson:
    """Turn the parser's message into a reason and a place."""
    if not body.strip(b" \t\r\n"):
        return NotStrictJson("the body is empty")
    if body.startswith(b"\xef\xbb\xbf"):
        return NotStrictJson("a byte order mark before the text", line=1, column=1)
    located = _LOCATED.match(str(error))
    if located is None:
        return NotStrictJson(_shortened(str(error)))
    line, column = int(located["line"]), int(located["column"])
    reason = located["reason"]
    if _NOT_A_NUMBER.match(_text_near(body, line, column)):
        reason = "NaN and Infinity are not JSON numbers"
    return NotStrictJson(_shortened(reason), line=line, column=max(column, 1))


def _text_near(body: bytes, line: int, column: int) -> bytes:
    """The bytes from the reported place on, or from the sign just before it."""
    start = 0
    for _ in range(line - 1):
        start = body.find(b"\n", start) + 1
    start += max(column - 1, 0)
    if start > 0 and body[start - 1 : start] in (b"-", b"+"):
        start -= 1
    return body[start : start + 16]


def _shortened(reason: str) -> str:
    return reason if len(reason) <= _LONGEST_REASON else reason[:_LONGEST_REASON] + "..."
