"""Green Button files written by hand, entry by entry, as the schema of NAESB ESPI has them."""

from collections.abc import Sequence

READING_TYPE = {
    "accumulationBehaviour": 4,
    "commodity": 1,
    "flowDirection": 1,
    "intervalLength": 3600,
    "kind": 12,
    "powerOfTenMultiplier": 0,
    "uom": 72,
}


def entry(title: str, content: str, own: str = "", up: str = "", related: Sequence[str] = ()) -> str:
    links = f'<link rel="self" href="{own}"/>' * bool(own) + f'<link rel="up" href="{up}"/>' * bool(up)
    links += "".join(f'<link rel="related" href="{href}"/>' for href in related)
    return f"<entry><title>{title}</title>{links}<content>{content}</content></entry>"


def usage_point(number: int = 1, title: str = "House", kind: int = 0, more: Sequence[str] = ()) -> str:
    own = f"/UsagePoint/{number}"
    content = (
        '<UsagePoint xmlns="http://naesb.org/espi"><ServiceCategory>'
        f"<kind>{kind}</kind></ServiceCategory></UsagePoint>"
    )
    return entry(title, content, own, "/UsagePoint", [f"{own}/MeterReading", *more])


def meter_reading(point: int = 1, number: int = 1, kind: int = 1, title: str = "") -> str:
    own = f"/UsagePoint/{point}/MeterReading/{number}"
    content = '<MeterReading xmlns="http://naesb.org/espi"/>'
    related = [f"{own}/IntervalBlock", f"/ReadingType/{kind}"]
    return entry(title, content, own, f"/UsagePoint/{point}/MeterReading", related)


def reading_type(number: int = 1, **fields: int | None) -> str:
    inside = "".join(
        f"<{name}>{value}</{name}>" for name, value in {**READING_TYPE, **fields}.items() if value is not None
    )
    content = f'<ReadingType xmlns="http://naesb.org/espi">{inside}</ReadingType>'
    return entry("", content, f"/ReadingType/{number}", "/ReadingType")


def reading(
    start: int | None, value: int | str, seconds: int | None = 3600, quality: int | None = None
) -> str:
    period = "" if seconds is None else f"<duration>{seconds}</duration>"
    period += "" if start is None else f"<start>{start}</start>"
    marked = "" if quality is None else f"<ReadingQuality><quality>{quality}</quality></ReadingQuality>"
    timed = f"<timePeriod>{period}</timePeriod>" if period else ""
    return f"<IntervalReading>{marked}{timed}<value>{value}</value></IntervalReading>"


def block(
    readings: Sequence[str], point: int = 1, number: int = 1, place: int = 1, start: int | None = None
) -> str:
    up = f"/UsagePoint/{point}/MeterReading/{number}/IntervalBlock"
    opened = (
        ""
        if start is None
        else f"<interval><duration>{3600 * len(readings)}</duration><start>{start}</start></interval>"
    )
    content = f'<IntervalBlock xmlns="http://naesb.org/espi">{opened}{"".join(readings)}</IntervalBlock>'
    return entry("", content, f"{up}/{place}", up)


def local_time(
    offset: int = -25200, saving: int = 3600, start: str = "360E2000", end: str = "B40E2000"
) -> str:
    """By default the mountain time of the United States: second Sunday of March to first Sunday of November."""
    content = (
        f'<LocalTimeParameters xmlns="http://naesb.org/espi"><dstEndRule>{end}</dstEndRule><dstOffset>{saving}'
        f"</dstOffset><dstStartRule>{start}</dstStartRule><tzOffset>{offset}</tzOffset></LocalTimeParameters>"
    )
    return entry("", content, "/LocalTimeParameters/1", "/LocalTimeParameters")


def feed(*entries: str) -> str:
    return (
        '<?xml version="1.0" encoding="UTF-8"?><?xml-stylesheet type="text/xsl" href="somewhere.xsl"?>'
        f'<feed xmlns="http://www.w3.org/2005/Atom"><title>Export</title>{"".join(entries)}</feed>'
    )


MIDNIGHT = 1672531200
"""2023-01-01T00:00:00Z."""


def hours(values: Sequence[int], start: int = MIDNIGHT, quality: int | None = None) -> list[str]:
    return [reading(start + 3600 * at, value, quality=quality) for at, value in enumerate(values)]


def house(values: Sequence[int], **fields: int | None) -> str:
    """A file with one series."""
    return feed(usage_point(), meter_reading(), reading_type(**fields), block(hours(values)))
