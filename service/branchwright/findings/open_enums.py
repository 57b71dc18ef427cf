"""Output values that may grow: plain strings in the contract, with the values known today written beside them.

A closed enum in an answer would break every older client on the day that a value is added.
"""

from typing import Any, get_args

from pydantic import Field
from pydantic.fields import FieldInfo


def open_enum(known: Any, description: str) -> FieldInfo:
    """Return the field of an output value whose known values are those of a Literal, and which may grow."""
    values = list(get_args(known))
    field: FieldInfo = Field(
        description=f"{description} Known values: {', '.join(values)}; others may be added.",
        json_schema_extra={"x-known-values": values},
    )
    return field
