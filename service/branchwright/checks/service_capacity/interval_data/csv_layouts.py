"""The layouts of CSV that a query can describe: which columns it names, and which of its instructions then matter."""

from dataclasses import dataclass

from branchwright.checks.service_capacity.interval_data.facts import Instructions
from branchwright.checks.service_capacity.interval_data.faults import Faults

ALWAYS_USED = frozenset({"unit", "delimiter", "decimal_mark", "date_order", "quality_column"})


@dataclass(slots=True, frozen=True)
class Layout:
    """Where stamps and values stand."""

    stamp_column: str
    """With date and time, or with the date alone."""

    time_of_day_column: str | None
    end_column: str | None
    value_column: str
    """In the layout of one row a day the column of the day's first interval."""

    last_value_column: str | None
    is_day_rows: bool
    used: frozenset[str]
    """Instructions that mean something."""

    @property
    def has_stamp_in_one(self) -> bool:
        """Whether date and time stand in one column."""
        return not self.is_day_rows and self.time_of_day_column is None


def layout_of(instructions: Instructions, seen: str, faults: Faults) -> Layout | None:
    """Return the layout that the query describes; None, with a fault, where it describes none.

    `seen` names the columns that the body seems to have.
    """
    if instructions.unit is None:
        faults.add("missing", "query:unit", f"what the values are is not stated. The columns are: {seen}.")
    if instructions.first_value_column is not None:
        layout = _day_rows(instructions, seen, faults)
    else:
        layout = _reading_rows(instructions, seen, faults)
    return None if instructions.unit is None else layout


def _day_rows(instructions: Instructions, seen: str, faults: Faults) -> Layout | None:
    if instructions.date_column is None or instructions.first_value_column is None:
        faults.add(
            "missing",
            "query:date_column",
            f"one row a day has its date in a column. The columns are: {seen}.",
        )
        return None
    return Layout(
        instructions.date_column,
        None,
        None,
        instructions.first_value_column,
        instructions.last_value_column,
        is_day_rows=True,
        used=ALWAYS_USED | {"date_column", "first_value_column", "last_value_column", "interval_minutes"},
    )


def _reading_rows(instructions: Instructions, seen: str, faults: Faults) -> Layout | None:
    stamp, day, time_of_day = (
        instructions.time_column,
        instructions.date_column,
        instructions.time_of_day_column,
    )
    if stamp is not None and (day is not None or time_of_day is not None):
        faults.add(
            "layout",
            "query:time_column",
            "state either time_column, or date_column and time_of_day_column.",
            stamp,
        )
        return None
    lacking = [] if instructions.value_column is not None else ["value_column"]
    if stamp is None:
        lacking += ["date_column"] if day is None else []
        lacking += ["time_of_day_column"] if time_of_day is None else []
    if lacking:
        if stamp is None and day is None and time_of_day is None:
            lacking = [name for name in lacking if name == "value_column"] + ["time_column"]
        faults.add(
            "missing",
            f"query:{lacking[0]}",
            f"not stated: {', '.join(lacking)}. The columns are: {seen}.",
        )
    first = stamp or day
    if lacking or first is None or instructions.value_column is None:
        return None
    used = {"value_column", "end_column", "interval_minutes"}
    used |= {"time_column"} if stamp is not None else {"date_column", "time_of_day_column"}
    registered = (instructions.unit or "").startswith("register")
    if instructions.end_column is None and not registered:
        used.add("stamps_at")
    if registered:
        used.discard("end_column")
    return Layout(
        first,
        time_of_day,
        None if registered else instructions.end_column,
        instructions.value_column,
        None,
        is_day_rows=False,
        used=ALWAYS_USED | used,
    )
