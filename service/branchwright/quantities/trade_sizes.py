"""Trade sizes of raceways: designators, not measurements, in their order of size."""

from typing import Final, Literal, TypeAlias, get_args

TradeSize: TypeAlias = Literal["1/2", "3/4", "1", "1-1/4", "1-1/2", "2"]

TRADE_SIZES: Final[tuple[TradeSize, ...]] = get_args(TradeSize)
"""Every trade size that the service designs with, smallest first."""

TRADE_SIZE_RANK: Final[dict[str, int]] = {size: rank for rank, size in enumerate(TRADE_SIZES)}
"""Place of a trade size in the order, 0 for 1/2."""
