"""The demand tables of the load articles for dwellings, and the sizes of a dwelling's service conductors."""

from collections.abc import Mapping
from dataclasses import dataclass

from branchwright.codebook.records import CodebookFault
from branchwright.codebook.tables import Table
from branchwright.findings import Sourced


@dataclass(slots=True, frozen=True)
class LightingPart:
    """A part of the general lighting load and the percentage at which it counts.

    It begins at `above_va`, in VA, where the part before ends, None standing for the beginning; it ends at
    `up_to_va`, None standing for no upper limit.
    """

    above_va: Sourced | None
    up_to_va: Sourced | None
    percent: Sourced


@dataclass(slots=True, frozen=True)
class DryerDemand:
    """The percentage of so many dryers' load.

    Where the book prints a formula, `less_percent_per_dryer` points come off `percent` for every dryer above
    `above_dryers`; both are None where it prints a figure.
    """

    percent: Sourced
    less_percent_per_dryer: Sourced | None
    above_dryers: Sourced | None


@dataclass(slots=True, frozen=True)
class RangeDemand:
    """The demand of so many cooking appliances by the columns of the table.

    Column A and column B are percentages of the sum of the ratings; column C is `demand_kw` in kW for all of them
    together, to which each adds `demand_kw_per_appliance`, None where the book prints one figure.
    """

    column_a_percent: Sourced
    column_b_percent: Sourced
    demand_kw: Sourced
    demand_kw_per_appliance: Sourced | None


class DwellingLoads:
    """The look-ups of one edition for the loads of dwellings."""

    def __init__(self, edition: str, tables: Mapping[str, Table]) -> None:
        """Take the edition's tables; raise CodebookFault where a demand table is missing."""
        missing = {"lighting_demand", "dryer_demand", "range_demand"} - set(tables)
        if missing:
            raise CodebookFault(f"Edition {edition} has no table {', '.join(sorted(missing))}.")
        self._dryers = tables["dryer_demand"]
        self._ranges = tables["range_demand"]
        self._service_sizes = tables.get("dwelling_service_sizes")
        self._lighting = _parts(tables["lighting_demand"])

    def lighting_demand(self, load_va: float) -> tuple[LightingPart, ...]:
        """Return the parts of the table that a general lighting load in VA reaches into, the first one always."""
        return tuple(
            part for part in self._lighting if part.above_va is None or part.above_va.number < load_va
        )

    def dryer_demand(self, dryers: int) -> DryerDemand:
        """Return the demand of a number of dryers, one or more."""
        return DryerDemand(
            percent=_cell(self._dryers, "percent", dryers),
            less_percent_per_dryer=self._dryers.at_least("less_percent_per_dryer", dryers),
            above_dryers=self._dryers.at_least("above_dryers", dryers),
        )

    def range_demand(self, appliances: int) -> RangeDemand:
        """Return the demand of a number of cooking appliances, one or more."""
        return RangeDemand(
            column_a_percent=_cell(self._ranges, "under_3_5_kw_percent", appliances),
            column_b_percent=_cell(self._ranges, "to_8_75_kw_percent", appliances),
            demand_kw=_cell(self._ranges, "demand_kw", appliances),
            demand_kw_per_appliance=self._ranges.at_least("demand_kw_per_appliance", appliances),
        )

    def service_size(self, rating_a: float, material: str) -> Sourced | None:
        """Return the printed size of the conductors of a dwelling's service or main feeder.

        None where the table has no row for the rating, and in an edition that prints no such table. The size may
        be larger than any that circuits are made of.
        """
        return None if self._service_sizes is None else self._service_sizes.cell(material, rating_a)


def _parts(table: Table) -> tuple[LightingPart, ...]:
    """The rows of the lighting table, each with the end of the row before."""
    parts: list[LightingPart] = []
    above: Sourced | None = None
    for row in table.rows:
        key = row["up_to_va"]
        up_to = None if key is None else table.cell("up_to_va", key)
        load_va = float("inf") if up_to is None else up_to.number
        parts.append(LightingPart(above, up_to, _cell(table, "percent", load_va)))
        above = up_to
    if above is not None:
        raise CodebookFault(f"Table {table.name} does not end with an open row.")
    return tuple(parts)


def _cell(table: Table, column: str, key: float) -> Sourced:
    """The cell of a column that every row has, in a table that ends with an open row."""
    found = table.at_least(column, key)
    if found is None:
        raise CodebookFault(f"Table {table.name} has no {column} for {key:g}.")
    return found
