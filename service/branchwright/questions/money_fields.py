"""Field types of money: decimal strings in JSON, `Decimal` here, and never a binary fraction on the way.

A JSON number is refused, since most readers turn it into a binary fraction before anyone can look at its digits.
"""

from decimal import Decimal
from typing import Annotated, Any, TypeAlias

from pydantic import Field, GetCoreSchemaHandler, GetJsonSchemaHandler
from pydantic.json_schema import JsonSchemaValue
from pydantic_core import CoreSchema, core_schema

MONEY = r"^-?[0-9]+(\.[0-9]+)?$"
AMOUNT = r"^(0|[1-9][0-9]{0,11})(\.[0-9]{1,8})?$"
SIGNED_AMOUNT = r"^-?(0|[1-9][0-9]{0,11})(\.[0-9]{1,8})?$"
SIGNED_PERCENT = r"^-?(0|[1-9][0-9]{0,3})(\.[0-9]{1,8})?$"


class DecimalText:
    """Marks a `Decimal` that stands in JSON as text of one pattern, on the way in and on the way out."""

    def __init__(self, pattern: str) -> None:
        """Keep the pattern."""
        self.pattern = pattern

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        """Return a strict string that is read as a decimal and written without an exponent."""
        text = core_schema.str_schema(strict=True, pattern=self.pattern)
        return core_schema.no_info_after_validator_function(
            Decimal, text, serialization=_as_text(self.pattern)
        )

    def __get_pydantic_json_schema__(
        self, schema: CoreSchema, handler: GetJsonSchemaHandler
    ) -> JsonSchemaValue:
        """Return the schema of that text, with the format by which the SDK knows that it is a decimal."""
        return {**handler(schema), "format": "decimal"}


class WorkedOutDecimal(DecimalText):
    """Marks a `Decimal` of an answer, which the engine hands over as it is."""

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        """Return the schema of the text in JSON, and of the decimal elsewhere."""
        text = super().__get_pydantic_core_schema__(source, handler)
        return core_schema.json_or_python_schema(
            json_schema=text,
            python_schema=core_schema.is_instance_schema(Decimal),
            serialization=_as_text(self.pattern),
        )


def _as_text(pattern: str) -> core_schema.SerSchema:
    return core_schema.plain_serializer_function_ser_schema(
        _written, return_schema=core_schema.str_schema(pattern=pattern)
    )


def _written(amount: Decimal) -> str:
    return f"{amount:f}"


Amount: TypeAlias = Annotated[Decimal, DecimalText(AMOUNT)]
SignedAmount: TypeAlias = Annotated[Decimal, DecimalText(SIGNED_AMOUNT)]
SignedPercent: TypeAlias = Annotated[Decimal, DecimalText(SIGNED_PERCENT)]
Money: TypeAlias = Annotated[Decimal, WorkedOutDecimal(MONEY)]
"""An amount or a price of an answer."""

Currency: TypeAlias = Annotated[
    str, Field(strict=True, pattern=r"^[A-Z]{3}$", description="Code of ISO 4217, such as USD.")
]
