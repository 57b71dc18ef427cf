"""Prints a normalised series as CSV and as Green Button XML, so that whatever was read can be handed on.

Reading what is printed gives the same series. Its zone is not part of it, only the offset of its start; and Green
Button has no place for what is missing before the first reading and after the last.
"""

from collections.abc import Iterator
from datetime import datetime, timedelta
from uuid import NAMESPACE_URL, uuid5

from branchwright.checks.service_capacity.interval_data.answers import NormalisedSeries

CSV_HEADER = "start,energy_wh"
MOST_DECIMALS = 6
MINUTES_A_DAY = 1440

_POINT = "/UsagePoint/1"
_READING = f"{_POINT}/MeterReading/1"
_TYPE = "/ReadingType/1"


def starts_of(series: NormalisedSeries) -> Iterator[datetime]:
    """Yield the start of every interval, at the offset of the first."""
    start, step = datetime.fromisoformat(series.start), timedelta(minutes=series.interval_minutes)
    return (start + step * index for index in range(len(series.energy_wh)))


def print_csv(series: NormalisedSeries) -> str:
    """Return the series as CSV: a stamp with offset and the energy in Wh, empty where it is missing.

    It is read with unit=energy-wh, time_column=start, value_column=energy_wh and stamps_at=start.
    """
    lines = [CSV_HEADER]
    for start, energy in zip(starts_of(series), series.energy_wh, strict=True):
        lines.append(f"{start.isoformat()},{'' if energy is None else repr(energy)}")
    return "\n".join(lines) + "\n"


def print_green_button(series: NormalisedSeries) -> str:
    """Return the series as a Green Button file: one usage point, one meter reading, one block a day.

    Values are whole numbers times the power of ten that the energies need, at most six decimals of a Wh.
    """
    decimals = _decimals(series)
    service = _element("ServiceCategory", _element("kind", 0))
    entries = [
        _entry(_POINT, "/UsagePoint", [f"{_POINT}/MeterReading"], _element("UsagePoint", service), series),
        _entry(
            _READING,
            f"{_POINT}/MeterReading",
            [f"{_READING}/IntervalBlock", _TYPE],
            _element("MeterReading", ""),
            series,
        ),
        _entry(_TYPE, "/ReadingType", [], _reading_type(series, decimals), series),
        *_blocks(series, decimals),
    ]
    opening = (
        '<?xml version="1.0" encoding="UTF-8"?>\n'
        '<feed xmlns="http://www.w3.org/2005/Atom" xmlns:espi="http://naesb.org/espi">'
        f"<id>{_identifier('feed', series)}</id><title>Interval data</title><updated>{series.start}</updated>"
    )
    return "\n".join([opening, *entries, "</feed>", ""])


def _blocks(series: NormalisedSeries, decimals: int) -> Iterator[str]:
    a_day = max(1, MINUTES_A_DAY // series.interval_minutes)
    readings = list(zip(starts_of(series), series.energy_wh, strict=True))
    for at in range(0, len(readings), a_day):
        day = readings[at : at + a_day]
        there = [_reading(start, wh, series, decimals) for start, wh in day if wh is not None]
        if there:
            seconds = len(day) * series.interval_minutes * 60
            interval = _element(
                "interval", _element("duration", seconds) + _element("start", _epoch(day[0][0]))
            )
            link = f"{_READING}/IntervalBlock"
            block = _element("IntervalBlock", interval + "".join(there))
            yield _entry(f"{link}/{at // a_day + 1}", link, [], block, series)


def _decimals(series: NormalisedSeries) -> int:
    """Return how many decimals the energies have, at most six."""
    energies = [energy for energy in series.energy_wh if energy is not None]
    return next(
        (digits for digits in range(MOST_DECIMALS) if all(round(each, digits) == each for each in energies)),
        MOST_DECIMALS,
    )


def _reading_type(series: NormalisedSeries, decimals: int) -> str:
    fields = {
        "accumulationBehaviour": 4,
        "commodity": 1,
        "flowDirection": 1,
        "intervalLength": series.interval_minutes * 60,
        "kind": 12,
        "powerOfTenMultiplier": -decimals,
        "uom": 72,
    }
    return _element("ReadingType", "".join(_element(name, value) for name, value in fields.items()))


def _reading(start: datetime, energy: float, series: NormalisedSeries, decimals: int) -> str:
    period = _element("duration", series.interval_minutes * 60) + _element("start", _epoch(start))
    value = _element("value", round(energy * 10**decimals))
    return _element("IntervalReading", _element("timePeriod", period) + value)


def _element(name: str, inside: str | int) -> str:
    return f"<espi:{name}>{inside}</espi:{name}>"


def _entry(link: str, up: str, related: list[str], content: str, series: NormalisedSeries) -> str:
    links = [f'<link rel="self" href="{link}"/>', f'<link rel="up" href="{up}"/>']
    links += [f'<link rel="related" href="{target}"/>' for target in related]
    return (
        f"<entry><id>{_identifier(link, series)}</id><title/>{''.join(links)}<updated>{series.start}</updated>"
        f"<content>{content}</content></entry>"
    )


def _identifier(link: str, series: NormalisedSeries) -> str:
    return f"urn:uuid:{uuid5(NAMESPACE_URL, series.start + link)}"


def _epoch(moment: datetime) -> int:
    return int(moment.timestamp())
