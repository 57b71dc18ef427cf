"""The field types of requests: strict numbers and closed models.

A JSON number is no boolean and a string is no number, so that the published schema and the models accept the
same documents.
"""

from typing import Annotated, Any, Literal, TypeAlias

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, GetCoreSchemaHandler
from pydantic_core import CoreSchema, PydanticKnownError, core_schema

Edition: TypeAlias = Literal["nec-2017", "nec-2020", "nec-2023", "nec-2026"]

GREATEST_CURRENT_A = 1000
GREATEST_RATING_A = 6000
LEAST_SIGNALLED_A = 6
GREATEST_SIGNALLED_A = 80
"""The least current that a pilot signal offers a vehicle, and the greatest of AC level 2: SAE J1772."""


def whole(value: Any) -> Any:
    """Take 3.0 for 3, as JSON Schema does, and true for no number: a Literal[1] would take it for 1."""
    if type(value) is bool:
        raise PydanticKnownError("int_type")
    return int(value) if type(value) is float and value.is_integer() else value


Number: TypeAlias = Annotated[float, Field(strict=True, allow_inf_nan=False)]
Percent: TypeAlias = Annotated[Number, Field(ge=0, le=100)]
Yes: TypeAlias = Annotated[bool, Field(strict=True)]
CurrentA: TypeAlias = Annotated[Number, Field(gt=0, le=GREATEST_CURRENT_A)]
RatingA: TypeAlias = Annotated[Number, Field(gt=0, le=GREATEST_RATING_A)]
System: TypeAlias = Literal["split-phase-120-240", "wye-208y-120"]
Access: TypeAlias = Literal["restricted", "unrestricted"]
SupplySystem: TypeAlias = Annotated[
    System,
    Field(description="240 V between the lines of a split-phase system, or 208 V between two of a wye."),
]
ServicePhases: TypeAlias = Annotated[
    Literal[1, 3] | None,
    BeforeValidator(whole),
    Field(description="Phases of the service; 3 on a wye system only. Not stated: 1."),
]


class _StatedNull(tuple[()]):
    """An empty list that was stated as null: a request is hashed as it was stated."""


class _NoneWhereNull:
    """Marks an optional list that may also be null, which says the same as leaving it out: none."""

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        """Return the schema of the list or null."""
        items = core_schema.nullable_schema(handler(source))
        return core_schema.no_info_after_validator_function(
            lambda stated: _StatedNull() if stated is None else stated,
            items,
            serialization=core_schema.wrap_serializer_function_ser_schema(
                lambda stated, write: None if type(stated) is _StatedNull else write(stated), schema=items
            ),
        )


NONE_WHERE_NULL = _NoneWhereNull()

Weekday: TypeAlias = Literal["mon", "tue", "wed", "thu", "fri", "sat", "sun"]
ClockTime: TypeAlias = Annotated[str, Field(strict=True, pattern=r"^([01][0-9]|2[0-3]):[0-5][0-9]$")]

Weekdays: TypeAlias = Annotated[
    tuple[Weekday, ...],
    Field(min_length=1, max_length=7, description="Days of arrival; one stated twice counts once."),
]
Arrival: TypeAlias = Annotated[ClockTime, Field(description="HH:MM by the local clock.")]
Departure: TypeAlias = Annotated[
    ClockTime, Field(description="HH:MM by the local clock; at or before the arrival: on the next day.")
]
Name: TypeAlias = Annotated[str, Field(strict=True, min_length=1, max_length=100)]

CalendarDate: TypeAlias = Annotated[
    str, Field(strict=True, pattern=r"^(19|20|21)[0-9][0-9]-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])$")
]
"""YYYY-MM-DD; one that no calendar has, such as 2027-02-30, is a failing finding."""

MOMENT = (
    r"^(19[789]|20[0-9]|21[0-8])[0-9]-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])"
    r"T([01][0-9]|2[0-3]):[0-5][0-9](:[0-5][0-9])?(Z|[+-](0[0-9]|1[0-4]):[0-5][0-9])$"
)
"""An ISO 8601 date and time with its offset, from 1970 to 2189."""

Moment: TypeAlias = Annotated[str, Field(strict=True, max_length=25, pattern=MOMENT)]
ZoneName: TypeAlias = Annotated[str, Field(strict=True, min_length=1, max_length=64)]
Jurisdiction: TypeAlias = Annotated[
    Annotated[str, Field(strict=True, min_length=1, max_length=200)] | None,
    Field(description="Place, for the record; local amendments are not applied."),
]


class Facts(BaseModel):
    """Base of the request models."""

    model_config = ConfigDict(frozen=True, extra="forbid", protected_namespaces=())
