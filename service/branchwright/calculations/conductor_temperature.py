"""Temperature at which a loaded conductor operates."""

from branchwright.calculations.calculation import calculation


@calculation(
    "conductor operating temperature",
    "ambient_c + (rating_c - ambient_c) * (load_a / ampacity_a) ^ 2",
    "degC",
)
def operating_temperature_c(ambient_c: float, rating_c: float, load_a: float, ampacity_a: float) -> float:
    """Return the temperature in degC of a conductor that carries a load.

    The rise above ambient goes with the square of the current, and the ampacity in A of a temperature column
    at that ambient is the current that heats the conductor to the column's temperature. Source: the heat
    balance behind the ampacity tables, NEC 310.14(B) (Neher and McGrath, AIEE Transactions 76, 1957).

    >>> operating_temperature_c(30.0, 75.0, 65.0, 65.0)
    75.0
    """
    return ambient_c + (rating_c - ambient_c) * (load_a / ampacity_a) ** 2
