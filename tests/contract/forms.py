"""Bodies of other forms than JSON, for requests made up from the document: tables of readings, and Atom feeds of them.

Each can be read: it is UTF-8, or well-formed XML. What it says may be as wrong as it likes, which is for findings.
"""

from typing import Any
from xml.sax.saxutils import escape

import schemathesis
from hypothesis import strategies as st

# What XML 1.0, section 2.2, lets stand in a document.
_XML_TEXT = st.text(
    st.one_of(
        st.sampled_from("\t\n"),
        st.characters(min_codepoint=0x20, max_codepoint=0xD7FF),
        st.characters(min_codepoint=0xE000, max_codepoint=0xFFFD),
        st.characters(min_codepoint=0x10000, max_codepoint=0x10FFFF),
    ),
    max_size=20,
)
_NUMBERS = st.one_of(
    st.integers(-(10**6), 10**6).map(str),
    st.integers().map(str),
    st.floats(allow_nan=False, allow_infinity=False).map(repr),
    st.sampled_from(["", "1,5", "1.234,5", "NaN", "-", "1e999", "0x10", "٣", "-0.0"]),
)
_STAMPS = st.one_of(
    st.datetimes().map(lambda moment: moment.isoformat()),
    st.datetimes().map(lambda moment: f"{moment.isoformat(timespec='minutes')}-07:00"),
    st.datetimes().map(lambda moment: f"{moment:%m/%d/%Y %I:%M %p}"),
    st.sampled_from(["2025-02-30T00:00:00Z", "2025-11-02 01:30", "24:00", "yesterday", ""]),
)


@st.composite
def tables(draw: st.DrawFn) -> bytes:
    """A table with a head and rows of about its width; times an hour apart, or anything."""
    mark = draw(st.sampled_from(",;\t|"))
    names = draw(
        st.lists(st.one_of(st.sampled_from(["Start", "kWh", "Date", "Status"]), _XML_TEXT), max_size=5)
    )
    count = draw(st.integers(0, 8))
    rows = [
        [
            f"2025-01-14T{number:02}:00:00-07:00" if draw(st.booleans()) else draw(_STAMPS),
            *draw(st.lists(_NUMBERS, max_size=4)),
        ]
        for number in range(count)
    ]
    quote = draw(st.booleans())
    end = draw(st.sampled_from(["\n", "\r\n", "\r"]))
    lines = [mark.join(f'"{cell}"' if quote else cell for cell in row) for row in [names, *rows]]
    start = draw(st.sampled_from(["", "\ufeff"]))
    return (start + end.join(lines) + draw(st.sampled_from(["", end, end * 3]))).encode()


TEXTS = st.one_of(tables(), tables(), st.text(max_size=60).map(str.encode))
"""What may be sent as text/csv: any text."""


def _element(name: str, content: str) -> str:
    return f"<{name}>{content}</{name}>"


@st.composite
def _readings(draw: st.DrawFn) -> str:
    start = 1736895600 + 3600 * draw(st.integers(0, 5))
    period = _element("duration", draw(_DURATIONS)) + _element("start", str(start))
    quality = _element("ReadingQuality", _element("quality", draw(_CODES)))
    return _element(
        "IntervalReading",
        draw(st.sampled_from(["", quality]))
        + draw(st.sampled_from(["", _element("timePeriod", period)]))
        + _element("value", escape(draw(_NUMBERS))),
    )


_DURATIONS = st.sampled_from(["900", "3600", "0", "-60", "1e3", ""])
_CODES = st.one_of(st.sampled_from(["0", "1", "4", "8", "12", "14", "19", "38", "72"]), _NUMBERS.map(escape))


@st.composite
def feeds(draw: st.DrawFn) -> bytes:
    """A feed whose entries stand in any order, may be missing, and may link to what is not there."""
    kind = "".join(
        _element(name, draw(_CODES))
        for name in (
            "accumulationBehaviour",
            "flowDirection",
            "intervalLength",
            "powerOfTenMultiplier",
            "uom",
        )
        if draw(st.integers(0, 3))
    )
    blocks = "".join(draw(st.lists(_readings(), max_size=6)))
    zone = _element("dstOffset", draw(_CODES)) + _element(
        "tzOffset", draw(st.sampled_from(["-25200", "0", "x"]))
    )
    entries = [
        ("UsagePoint/1", "", "UsagePoint", _element("ServiceCategory", _element("kind", "0"))),
        ("MeterReading/1", "ReadingType/1", "MeterReading", ""),
        ("ReadingType/1", "", "ReadingType", kind),
        ("MeterReading/1/IntervalBlock/1", "", "IntervalBlock", blocks),
        ("LocalTimeParameters/1", "", "LocalTimeParameters", zone),
    ]
    chosen = draw(st.lists(st.sampled_from(entries), max_size=6))
    if draw(st.booleans()):
        chosen = draw(st.permutations(entries))
    text = "".join(
        _element(
            "entry",
            f'<link rel="self" href="{own}"/>'
            + (f'<link rel="related" href="{other}"/>' if other else "")
            + f'<link rel="up" href="{own.rpartition("/")[0]}"/>'
            + _element("title", escape(draw(_XML_TEXT)))
            + _element("content", f'<{name} xmlns="http://naesb.org/espi">{content}</{name}>'),
        )
        for own, other, name, content in chosen
    )
    head = draw(
        st.sampled_from(["", '<?xml version="1.0" encoding="UTF-8"?>', '<?xml-stylesheet href="a.xsl"?>'])
    )
    return f'{head}<feed xmlns="http://www.w3.org/2005/Atom">{text}</feed>'.encode()


DOCUMENTS = st.one_of(
    feeds(),
    feeds(),
    _XML_TEXT.map(lambda text: f"<a b={chr(34)}1{chr(34)}>{escape(text)}</a>".encode()),
)
"""What may be sent as application/xml: any well-formed document without a document type."""


def register() -> None:
    """Let schemathesis make bodies of these forms, and send the documented ones."""
    schemathesis.openapi.media_type("text/csv", TEXTS)
    schemathesis.openapi.media_type("application/xml", DOCUMENTS)
    schemathesis.hook(before_load_schema)


def before_load_schema(context: schemathesis.HookContext, raw_schema: dict[str, Any]) -> None:
    """Write documented bodies of these forms as the bytes that they are: JSON has them as texts."""
    for item in raw_schema["paths"].values():
        for operation in item.values():
            content = operation.get("requestBody", {}).get("content", {})
            for media_type in ("text/csv", "application/xml"):
                for example in content.get(media_type, {}).get("examples", {}).values():
                    example["value"] = example["value"].encode()
