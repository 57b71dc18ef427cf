"""Reads interval data in each of its three forms, and answers with series, quality and measured demand."""

from collections.abc import Callable, Iterable, Iterator
from datetime import tzinfo
from hashlib import sha256

from branchwright.checks.service_capacity.interval_data.answering import Reading
from branchwright.checks.service_capacity.interval_data.answers import IntervalDataAnswer
from branchwright.checks.service_capacity.interval_data.collected import Collected
from branchwright.checks.service_capacity.interval_data.csv_layouts import layout_of
from branchwright.checks.service_capacity.interval_data.csv_readings import collect_csv
from branchwright.checks.service_capacity.interval_data.csv_table import columns_seen
from branchwright.checks.service_capacity.interval_data.facts import (
    MOST_BYTES,
    Instructions,
    IntervalDataRequest,
    RegularSeries,
)
from branchwright.checks.service_capacity.interval_data.faults import Faults
from branchwright.checks.service_capacity.interval_data.green_button.choosing import choose
from branchwright.checks.service_capacity.interval_data.green_button.collecting import (
    collect_series,
    local_time_of,
)
from branchwright.checks.service_capacity.interval_data.green_button.linking import series_of
from branchwright.checks.service_capacity.interval_data.green_button.parsing import parse_feed
from branchwright.checks.service_capacity.interval_data.instructions import ABOUT_ANY_TEXT, OF_CSV, unused
from branchwright.checks.service_capacity.interval_data.json_readings import collect_regular, collect_stamped
from branchwright.checks.service_capacity.interval_data.stated import stated_in_body, stated_in_query
from branchwright.checks.service_capacity.interval_data.unreadable import UnreadableBody


def read_json(request: IntervalDataRequest, instructions: Instructions | None = None) -> IntervalDataAnswer:
    """Return what the readings of a JSON body say.

    `instructions` are what a caller put in the query all the same: they mean nothing here, and a recommendation
    names them.
    """
    reading = Reading(stated_in_body(request))
    series = request.series
    if instructions is not None:
        reading.unused += unused(instructions, ())
    reading.unit_pointer = "/series/unit"
    if isinstance(series, RegularSeries):
        reading.unit_pointer = "/series/energy_wh" if series.power_w is None else "/series/power_w"
        return reading.answer(lambda zone, faults: collect_regular(series, zone, faults))
    if series.unit.startswith("register") and series.stamps_at is not None:
        reading.unused.append("/series/stamps_at")
    return reading.answer(lambda _, faults: collect_stamped(series, faults))


def read_csv(body: bytes, instructions: Instructions) -> IntervalDataAnswer:
    """Return what the readings of a CSV body say; raise UnreadableBody where it is not UTF-8 or too long."""
    if len(body) > MOST_BYTES:
        raise UnreadableBody(f"The body is longer than {MOST_BYTES} bytes.")
    reading = Reading(stated_in_query(instructions, sha256(body).hexdigest()))
    layout = layout_of(instructions, columns_seen(body), reading.faults)
    used = layout.used if layout is not None else OF_CSV
    reading.unused += unused(instructions, ABOUT_ANY_TEXT | used)

    def collect(zone: tzinfo | None, faults: Faults) -> Collected | None:
        return None if layout is None else collect_csv(body, instructions, layout, zone, faults)

    return reading.answer(collect)


def read_green_button(body: bytes | Iterable[bytes], instructions: Instructions) -> IntervalDataAnswer:
    """Return what the readings of a Green Button file say.

    Raises UnreadableBody where it is no well-formed XML, has a document type, entities, too many bytes, readings
    or entries, or is nested too deep.
    """
    digest = sha256()
    faults = Faults()
    feed = parse_feed(_digested(body, digest.update), faults)
    reading = Reading(stated_in_query(instructions, digest.hexdigest()), faults)
    reading.unused += unused(instructions, ABOUT_ANY_TEXT | {"meter_reading"})
    reading.unit_pointer = "body:ReadingType/uom"
    found = series_of(feed, faults)
    reading.candidates = len(found)
    chosen = choose(found, instructions.meter_reading, faults)
    if chosen is not None and instructions.time_zone is None:
        reading.file_zone = local_time_of(chosen, faults, chosen.to_verify)
    return reading.answer(lambda _, __: None if chosen is None else collect_series(chosen, faults))


def _digested(body: bytes | Iterable[bytes], take: Callable[[bytes], object]) -> Iterator[bytes]:
    for chunk in [body] if isinstance(body, bytes) else body:
        take(chunk)
        yield chunk
