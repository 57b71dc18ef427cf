"""Growth of the grounding conductor with the ungrounded conductors."""

from branchwright.calculations.calculation import calculation


@calculation("least area of the grounding conductor", "table_cmil * installed_cmil / minimum_cmil", "cmil")
def proportional_area_cmil(table_cmil: float, installed_cmil: float, minimum_cmil: float) -> float:
    """Return the least area in circular mils of a grounding conductor whose circuit grew.

    Formula: area of the table's grounding conductor times installed over minimum ungrounded area, the ratio
    never rounded. Source: NEC 250.122(B). Published example: 4 AWG, 250 to 350 kcmil gives 58 436 cmil.

    >>> proportional_area_cmil(41740.0, 350000.0, 250000.0)
    58436.0
    """
    return table_cmil * installed_cmil / minimum_cmil


def shortfall_percent(area_cmil: float, least_cmil: float) -> float:
    """Return by how many percent an area falls short of the least one; negative where it does not.

    >>> round(shortfall_percent(26240.0, 26242.35), 3)
    0.009
    """
    return (1.0 - area_cmil / least_cmil) * 100.0
