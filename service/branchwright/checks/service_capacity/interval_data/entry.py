"""Reads interval data in each of its three forms, and answers with series, quality and measured demand."""

from collections.abc import Iterable

from branchwright.checks.service_capacity.interval_data.answering import Reading
from branchwright.checks.service_capacity.interval_data.answers import IntervalDataAnswer
from branchwright.checks.service_capacity.interval_data.facts import (
    Instructions,
    IntervalDataRequest,
    RegularSeries,
)
from branchwright.checks.service_capacity.interval_data.instructions import unused
from branchwright.checks.service_capacity.interval_data.json_readings import collect_regular, collect_stamped
from branchwright.checks.service_capacity.interval_data.stated import stated_in_body


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
    raise NotImplementedError


def read_green_button(body: bytes | Iterable[bytes], instructions: Instructions) -> IntervalDataAnswer:
    """Return what the readings of a Green Button file say.

    Raises UnreadableBody where it is no well-formed XML, has a document type, entities, too many bytes, readings
    or entries, or is nested too deep.
    """
    raise NotImplementedError
