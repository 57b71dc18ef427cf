"""One edition with its typed look-ups; built once and shared by all requests."""

from dataclasses import dataclass
from functools import cache
from typing import Literal, TypeAlias

from branchwright.codebook import loader
from branchwright.codebook.dwelling_loads import DwellingLoads
from branchwright.codebook.records import CodebookFault, Provision, ProvisionLacking
from branchwright.codebook.tables import Table
from branchwright.findings import Citation, Sourced
from branchwright.quantities.conductor_sizes import RANK, SIZES, ConductorSize
from branchwright.quantities.trade_sizes import TRADE_SIZES, TradeSize

WiringMethod: TypeAlias = Literal[
    "emt",
    "imc",
    "rmc",
    "pvc-40",
    "pvc-80",
    "fmc",
    "lfmc",
    "lfnc-b",
    "nm-b",
    "uf-b",
    "se",
    "mc",
    "ac",
]
RacewayMethod: TypeAlias = Literal["emt", "imc", "rmc", "pvc-40", "pvc-80", "fmc", "lfmc", "lfnc-b"]
Material: TypeAlias = Literal["copper", "aluminum"]
Location: TypeAlias = Literal["dry", "damp", "wet"]
Ground: TypeAlias = Literal["soil", "dwelling-driveway", "street", "building", "concrete"]
Use: TypeAlias = Literal["yes", "no", "listed"]

REMEMBERED_COUNTS = 1000
"""Counts of conductors whose adjustment is looked up only once."""
LOCATIONS: tuple[Location, ...] = ("dry", "damp", "wet")


@dataclass(slots=True, frozen=True)
class MethodFacts:
    """What the edition says of a wiring method.

    Temperatures are in degC; `listed_c` is the temperature that the raceway itself is listed for, by
    location; `start_c` and `cap_c` are the ampacity columns to correct from and to stay within, the start
    giving way to the print on the cable where `marked_rating` holds. In thermal insulation `insulated_cap_c`
    caps sizes up to `insulated_cap_up_to`. `permitted` and `underground` say where it may be used: yes, no,
    or only as a product listed for it.
    """

    name: str
    is_raceway: bool
    impedance_column: str
    permitted: dict[str, Use]
    location_citation: Citation
    underground: Use
    underground_citation: Citation
    cover_column: str | None
    is_liquidtight: bool
    start_c: Sourced | None
    marked_rating: bool
    cap_c: Sourced | None
    ampacity_citation: Citation | None
    insulated_cap_c: Sourced | None
    insulated_cap_up_to: ConductorSize
    insulated_citation: Citation | None
    bundle_count: Sourced | None
    listed_c: dict[str, Sourced | None]
    ambient_limit_c: Sourced | None
    temperature_citation: Citation | None
    made: dict[str, tuple[ConductorSize, ConductorSize] | None]
    sizes_citation: Citation | None
    areas: dict[TradeSize, Sourced]
    areas_in2: dict[TradeSize, float]


class EditionBook:
    """The look-ups of one edition. Every value comes back as a Sourced value, or None where the book has none."""

    def __init__(self, name: str) -> None:
        """Load the edition's tables and provisions."""
        self.name = name
        self._tables = loader.tables(name)
        self._provisions = loader.provisions(name)
        self._citations: dict[str, Citation] = {
            **{concept: item.citation for concept, item in self._provisions.items()},
            **{table_name: table.citation for table_name, table in self._tables.items()},
        }
        ampacities = self._table("ampacity")
        areas = self._table("conductor_areas")
        properties = self._table("conductor_properties")
        insulations = self._table("insulations")
        self.ampacities: dict[tuple[str, str, int], Sourced] = {
            (size, material, column): cell
            for size in SIZES
            for material in ("copper", "aluminum")
            for column in (60, 75, 90)
            if (cell := ampacities.cell(f"{material}_{column}", size)) is not None
        }
        """Ampacity by size, material and temperature column."""
        self.ampacities_a: dict[tuple[str, str, int], float] = {
            key: cell.number for key, cell in self.ampacities.items()
        }
        """The same as plain numbers in A, for sizing."""
        self.ampacity_ladders: dict[tuple[str, int], list[float]] = {
            (material, column): [self.ampacities_a.get((size, material, column), 0.0) for size in SIZES]
            for material in ("copper", "aluminum")
            for column in (60, 75, 90)
        }
        """Ampacities in A by material and column in the order of the sizes; 0 where a size is not made."""
        self.conductor_areas: dict[tuple[str, str], Sourced] = {
            (str(row["insulation"]), str(row["size"])): cell
            for row in areas.rows
            if (cell := areas.cell("area_in2", str(row["insulation"]), str(row["size"]))) is not None
        }
        """Area in square inches of an insulated conductor by insulation and size."""
        self.conductor_areas_in2: dict[tuple[str, str], float] = {
            key: cell.number for key, cell in self.conductor_areas.items()
        }
        """The same as plain numbers, for sizing."""
        self.areas_cmil: dict[str, Sourced] = {
            size: cell for size in SIZES if (cell := properties.cell("area_cmil", size)) is not None
        }
        """Area in circular mils of a bare conductor by size."""
        self.insulation_temperatures: dict[tuple[str, str], Sourced] = {
            (str(row["insulation"]), location): cell
            for row in insulations.rows
            for location in LOCATIONS
            if (cell := insulations.cell(f"{location}_c", str(row["insulation"]))) is not None
        }
        """Temperature rating in degC by insulation and location; no entry where it is not permitted."""
        self.standard_ratings: tuple[float, ...] = self._table("standard_ratings").numbers("rating_a")
        self._correction = self._table("ambient_correction")
        self._adjustment = self._table("conductor_count_adjustment")
        self._adjustments: dict[int, Sourced] = {}
        self._ratings = self._table("standard_ratings")
        self._grounding = self._table("grounding_conductor")
        self._fill = self._table("raceway_fill")
        self._impedance = self._table("conductor_impedance")
        self._small = self._table("small_conductor_limits")
        self._supports = self._table("supports")
        self._receptacles = self._table("receptacles")
        self._cover = self._table("burial_cover")
        voltages = self._table("nominal_voltages")
        self._voltages: dict[tuple[str, str], Sourced] = {
            (str(row["system"]), column): cell
            for row in voltages.rows
            for column in ("between_lines_v", "to_ground_v", "phases")
            if (cell := voltages.cell(column, str(row["system"]))) is not None
        }
        self.impedances_ohm: dict[tuple[str, str, str], tuple[float, float]] = {
            (size, material, raceway): (resistance.number, reactance.number)
            for size in SIZES
            for material in ("copper", "aluminum")
            for raceway in ("pvc", "aluminum", "steel")
            if (resistance := self.resistance(size, material, raceway)) is not None
            and (reactance := self.reactance(size, raceway)) is not None
        }
        """Resistance and reactance in ohm per 1000 ft by size, material and raceway, as plain numbers."""
        self.dwelling_loads = DwellingLoads(name, self._tables)
        """Demand tables for dwellings, and the sizes of their service conductors."""
        self.methods: dict[str, MethodFacts] = {
            str(row["wiring_method"]): self._method(str(row["wiring_method"]))
            for row in self._table("wiring_methods").rows
        }

    def _table(self, name: str) -> Table:
        if name not in self._tables:
            raise CodebookFault(f"Edition {self.name} has no table {name}.")
        return self._tables[name]

    def provision(self, concept: str) -> Provision:
        """Return the provision on a concept; raise ProvisionLacking where the edition has none."""
        found = self._provisions.get(concept)
        if found is None:
            raise ProvisionLacking(self.name, concept)
        return found

    def citation_of(self, concept: str) -> Citation:
        """Return the citation of a table, or of a provision; raise ProvisionLacking where there is neither."""
        found = self._citations.get(concept)
        return self.provision(concept).citation if found is None else found

    def ambient_correction(self, ambient_c: float, column: int) -> Sourced | None:
        """Return the correction factor of a column at an ambient temperature; None above the printed range."""
        return self._correction.at_least(str(column), ambient_c)

    def count_adjustment(self, count: int) -> Sourced:
        """Return the adjustment in percent for a number of current-carrying conductors."""
        found = self._adjustments.get(count)
        if found is None:
            found = self._adjustment.at_least("percent", float(count))
            if found is None:
                raise CodebookFault("The adjustment table does not end with an open row.")
            if count <= REMEMBERED_COUNTS:
                self._adjustments[count] = found
        return found

    def standard_rating_at_least(self, current_a: float) -> Sourced | None:
        """Return the least standard rating of an overcurrent device that is at least the current."""
        return self._ratings.at_least("rating_a", current_a)

    def small_conductor_limit(self, material: str, size: str) -> Sourced | None:
        """Return the greatest overcurrent device on a small conductor; None for larger ones."""
        return self._small.cell("greatest_overcurrent_device_a", material, size)

    def grounding_conductor(self, rating_a: float, material: str) -> Sourced | None:
        """Return the grounding conductor for an overcurrent device; None past the last row."""
        return self._grounding.at_least(material, rating_a)

    def fill_percent(self, conductors: int) -> Sourced:
        """Return the fill limit in percent of a raceway with so many conductors or cables."""
        found = self._fill.at_least("percent", float(conductors))
        if found is None:
            raise CodebookFault("The fill table does not end with an open row.")
        return found

    def resistance(self, size: str, material: str, raceway: str) -> Sourced | None:
        """Return the effective resistance in ohm per 1000 ft at 75 degC by raceway material."""
        return self._impedance.cell(f"{material}_{raceway}", size)

    def reactance(self, size: str, raceway: str) -> Sourced | None:
        """Return the reactance in ohm per 1000 ft by raceway material."""
        return self._impedance.cell(f"reactance_{raceway}", size)

    def size_with_area_at_least(self, area_cmil: float) -> ConductorSize | None:
        """Return the smallest size whose printed area is at least the given one."""
        for size in SIZES:
            if self.areas_cmil[size].number >= area_cmil:
                return size
        return None

    def support(self, method: str, trade_size: str) -> tuple[float, float, Citation] | None:
        """Return the distances in inches from a box and between supports, with their section."""
        within = self._supports.cell("within_of_box_in", method, trade_size)
        interval = self._supports.cell("interval_in", method, trade_size)
        section = self._supports.cell("section", method, trade_size)
        if within is None or interval is None or section is None:
            return None
        return within.number, interval.number, Citation(self.name, section.name)

    def voltage_between_lines(self, system: str) -> Sourced:
        """Return the nominal voltage in V between two lines of a supply system."""
        return self._voltages[system, "between_lines_v"]

    def voltage_to_ground(self, system: str) -> Sourced:
        """Return the nominal voltage in V from a line to ground of a supply system."""
        return self._voltages[system, "to_ground_v"]

    def greatest_phases(self, system: str) -> Sourced:
        """Return how many phases a supply system has for a charger."""
        return self._voltages[system, "phases"]

    def burial_cover(self, under: str, column: str, unit: str = "in") -> Sourced | None:
        """Return the least cover of a buried raceway or cable, in inches or as printed in mm; None where it may
        not be there.
        """
        return self._cover.cell(column if unit == "in" else column.removesuffix("_in") + "_mm", under)

    @property
    def receptacle_configurations(self) -> tuple[str, ...]:
        """The receptacle configurations that the edition permits for charging."""
        return tuple(str(row["configuration"]) for row in self._receptacles.rows)

    def receptacle_rating(self, configuration: str) -> Sourced | None:
        """Return the rating in A of a receptacle configuration that the edition knows for charging."""
        return self._receptacles.cell("rating_a", configuration)

    def receptacle_is_printed(self, configuration: str) -> bool:
        """Return whether the edition itself is known to print a configuration, not only reported to."""
        printed = self._receptacles.cell("printed", configuration)
        return printed is not None and printed.name == "yes"

    def receptacle_has_neutral(self, configuration: str) -> bool:
        """Return whether a receptacle configuration has a neutral contact."""
        neutral = self._receptacles.cell("neutral", configuration)
        return neutral is not None and neutral.name == "yes"

    def _method(self, name: str) -> MethodFacts:
        table = self._table("wiring_methods")

        def cell(column: str) -> Sourced | None:
            return table.cell(column, name)

        def text(column: str) -> str | None:
            found = cell(column)
            return None if found is None else found.name

        def cited(column: str) -> Citation | None:
            section = text(column)
            return None if section is None else Citation(self.name, section)

        def use(column: str) -> Use:
            found = text(column)
            if found == "yes":
                return "yes"
            return "listed" if found == "listed" else "no"

        def made(material: str) -> tuple[ConductorSize, ConductorSize] | None:
            smallest, largest = text(f"{material}_smallest"), text(f"{material}_largest")
            if smallest is None or largest is None:
                return None
            return SIZES[RANK[smallest]], SIZES[RANK[largest]]

        areas = self._table("raceway_areas")
        sized: dict[TradeSize, Sourced] = {
            trade_size: found
            for trade_size in TRADE_SIZES
            if (found := areas.cell("area_in2", name, trade_size)) is not None
        }
        return MethodFacts(
            name=name,
            is_raceway=text("kind") == "raceway",
            impedance_column=text("impedance_column") or "pvc",
            permitted={location: use(location) for location in LOCATIONS},
            location_citation=cited("location_section") or table.citation,
            underground=use("underground"),
            underground_citation=cited("underground_section") or table.citation,
            cover_column=text("cover_column"),
            is_liquidtight=text("liquidtight") == "yes",
            start_c=cell("ampacity_start_c"),
            marked_rating=text("marked_rating") == "yes",
            cap_c=cell("ampacity_cap_c"),
            ampacity_citation=cited("ampacity_section"),
            insulated_cap_c=cell("insulated_cap_c"),
            insulated_cap_up_to=SIZES[RANK[text("insulated_cap_up_to") or SIZES[-1]]],
            insulated_citation=cited("insulated_section"),
            bundle_count=cell("bundle_count"),
            listed_c={location: cell(f"temperature_{location}_c") for location in LOCATIONS},
            ambient_limit_c=cell("ambient_limit_c"),
            temperature_citation=cited("temperature_section"),
            made={"copper": made("copper"), "aluminum": made("aluminum")},
            sizes_citation=cited("sizes_section"),
            areas=sized,
            areas_in2={size: found.number for size, found in sized.items()},
        )


@cache
def edition_book(name: str) -> EditionBook:
    """Return the shared look-ups of an edition; raise UnknownEntry where the codebook does not know it."""
    return EditionBook(name)
