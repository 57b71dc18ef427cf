"""What requests take for money, and for whatever else is exact to the last digit; in answers it is a `Decimal`."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING, Annotated, TypeAlias

from .bodies import written

if TYPE_CHECKING:
    Money: TypeAlias = Decimal | str
    """An amount, sent as text. A float is refused: 0.1 is not a tenth."""
else:
    from pydantic import BeforeValidator

    def _as_text(value: object) -> object:
        return written(value) if isinstance(value, Decimal) else value

    Money = Annotated[str, BeforeValidator(_as_text)]
