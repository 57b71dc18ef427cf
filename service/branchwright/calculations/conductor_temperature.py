"""Temperature at which a loaded conductor operates."""

from branchwright.calculations.calculation import calculation


@calculation(
    "conductor operating temperature",
    "ambient_c + (rating_c - base_c) * (load_a / (ampacity_a * adjustment_percent / 100)) ^ 2",
    "degC",
)
def operating_temperature_c(
    ambient_c: float,
    rating_c: float,
    base_c: float,
    load_a: float,
    ampacity_a: float,
    adjustment_percent: float,
) -> float:
    """Return the temperature in degC of a conductor that carries a load.

    The rise above ambient goes with the square of the current. The ampacity in A of a temperature column
    (rating, degC) is the current that heats the conductor from the table's ambient (base, degC) to the column's
    temperature; with more conductors beside it, a share of that current does. With the ampacity corrected to
    the ambient by the square-root equation the same reads ambient + (rating - ambient) (I / ampacity)^2.
    Source: the heat balance behind the ampacity tables and the equation of NEC 310.15(B) (Neher and McGrath,
    AIEE Transactions 76, 1957).

    >>> operating_temperature_c(30.0, 75.0, 30.0, 65.0, 65.0, 100.0)
    75.0
    >>> round(operating_temperature_c(38.0, 75.0, 30.0, 48.0, 65.0, 100.0), 2)
    62.54
    """
    return ambient_c + (rating_c - base_c) * (load_a / (ampacity_a * adjustment_percent / 100)) ** 2
