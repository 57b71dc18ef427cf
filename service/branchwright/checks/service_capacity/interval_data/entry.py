"""Reads interval data in each of its three forms, and answers with series, quality and measured demand."""

from collections.abc import Iterable

from branchwright.checks.service_capacity.interval_data.answers import IntervalDataAnswer
from branchwright.checks.service_capacity.interval_data.facts import Instructions, IntervalDataRequest


def read_json(request: IntervalDataRequest, instructions: Instructions | None = None) -> IntervalDataAnswer:
    """Return what the readings of a JSON body say.

    `instructions` are what a caller put in the query all the same: they mean nothing here, and a recommendation
    names them.
    """
    raise NotImplementedError


def read_csv(body: bytes, instructions: Instructions) -> IntervalDataAnswer:
    """Return what the readings of a CSV body say; raise UnreadableBody where it is not UTF-8 or too long."""
    raise NotImplementedError


def read_green_button(body: bytes | Iterable[bytes], instructions: Instructions) -> IntervalDataAnswer:
    """Return what the readings of a Green Button file say.

    Raises UnreadableBody where it is no well-formed XML, has a document type, entities, too many bytes, readings
    or entries, or is nested too deep.
    """
    raise NotImplementedError
