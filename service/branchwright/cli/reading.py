"""Reads a file of meter readings without a server, and writes what was read in another form."""

from collections.abc import Mapping
from pathlib import Path
from typing import Final, cast

from branchwright.checks.service_capacity.interval_data import (
    Instructions,
    IntervalDataAnswer,
    IntervalDataRequest,
    UnreadableBody,
    read_csv,
    read_green_button,
    read_json,
)
from branchwright.checks.service_capacity.interval_data.facts import MOST_BYTES
from branchwright.checks.service_capacity.interval_data.printing import print_csv, print_green_button
from branchwright.cli.checking import NotAnswered, content_of, fitted
from branchwright.http_api.strict_json import NotStrictJson, parse

_BLANK: Final = b"\xef\xbb\xbf \t\r\n"
"""What may stand before the first mark of a file that tells its form: a byte order mark, and blanks."""


def read_file(file: Path, options: Mapping[str, str | None]) -> IntervalDataAnswer:
    """Return what a file of readings says: Green Button XML, JSON or CSV, told by its first mark.

    Raises NotAnswered for a file or an option that cannot be read.
    """
    body = content_of(file, MOST_BYTES + 1)
    if len(body) > MOST_BYTES:
        raise NotAnswered(f"{file} is longer than {MOST_BYTES} bytes.")
    fields = Instructions.model_fields
    given = {fields[name].alias or name: text for name, text in options.items() if text is not None}
    instructions = cast("Instructions", fitted(Instructions, given, "An option"))
    start = body.lstrip(_BLANK)[:1]
    try:
        if start == b"<":
            return read_green_button(body, instructions)
        if start == b"{":
            request = cast("IntervalDataRequest", fitted(IntervalDataRequest, parse(body), str(file)))
            return read_json(request, instructions)
        return read_csv(body, instructions)
    except (UnreadableBody, NotStrictJson) as error:
        raise NotAnswered(f"{file} cannot be read: {error}") from error


def write_series(answer: IntervalDataAnswer, csv: Path | None, green_button: Path | None) -> None:
    """Write the series of an answer to files; raise NotAnswered where there is none, or it cannot be written."""
    for target, printed in ((csv, print_csv), (green_button, print_green_button)):
        if target is None:
            continue
        if answer.series is None:
            raise NotAnswered(f"There is no series to write to {target}: the findings say why.")
        try:
            target.write_text(printed(answer.series), "utf-8")
        except OSError as error:
            raise NotAnswered(f"{target} cannot be written: {error.strerror}.") from error
