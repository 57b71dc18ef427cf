"""What the oracle knows before it judges: the codebook's data files, and what a request says of its circuit.

It imports nothing of the service and reads the same CSV and TOML files, so it says nothing about the printed
values: that is what the checks of the tables are for. Requests are plain JSON objects. Quantities: A, V,
degC, ft, in2, cmil, percent.
"""

import csv
import tomllib
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

Json = dict[str, Any]

DATA = Path(__file__).parents[2] / "service/branchwright/codebook/data/nec"
FEET = {"ft": Fraction(1), "in": Fraction(1, 12), "m": Fraction(10000, 3048), "mm": Fraction(10, 3048)}
"""A unit of length in feet; the foot is 0.3048 m exactly (NIST Special Publication 811)."""


# ---------------------------------------------------------------------------------------- the data files


@cache
def table(edition: str, name: str) -> list[dict[str, str]]:
    """Return the rows of a table, as text; an edition may share those of another."""
    folder = DATA / "tables" / name
    with (folder / "about.toml").open("rb") as file:
        editions = tomllib.load(file)["editions"]
    while "same_as" in editions[edition]:
        edition = editions[edition]["same_as"]
    with (folder / editions[edition]["rows"]).open(newline="", encoding="utf-8") as lines:
        return list(csv.DictReader(lines))


@cache
def provision(edition: str, name: str) -> dict[str, Any]:
    """Return the values of a provision; one that an edition leaves out sets no limit."""
    with (DATA / "provisions" / f"{name}.toml").open("rb") as file:
        return dict(tomllib.load(file)["editions"][edition]["values"])


@cache
def has_provision(edition: str, name: str) -> bool:
    """Whether the edition has words on it at all."""
    with (DATA / "provisions" / f"{name}.toml").open("rb") as file:
        return edition in tomllib.load(file)["editions"]


@cache
def interpretation(name: str) -> dict[str, Any]:
    """Return a point that is read two ways."""
    with (DATA / "interpretations.toml").open("rb") as file:
        return dict(tomllib.load(file)["interpretations"][name])


@cache
def exact(number: float | str) -> Fraction:
    """Return a number as it is written, without the rounding of floating point."""
    return Fraction(str(number))


@cache
def cell(edition: str, name: str, column: str, **keys: str) -> str:
    """Return the cell of the row that has these keys; an empty text where the table leaves it empty."""
    for row in table(edition, name):
        if all(row[key] == value for key, value in keys.items()):
            return row[column]
    return ""


def feet(length: Json) -> Fraction:
    """Return a length with its unit in feet."""
    return exact(length["value"]) * FEET[length["unit"]]


# --------------------------------------------------------------------------------------------- the facts


@dataclass(frozen=True)
class Facts:
    """A request with every unknown fact taken at its worst, or every one at its best (decision 5)."""

    request: Json
    best: bool = False

    # ------------------------------------------------------------------------------------ the edition

    @property
    def edition(self) -> str:
        """The edition that is applied."""
        return str(self.request["edition"])

    def table(self, name: str) -> list[dict[str, str]]:
        """A table of the edition."""
        return table(self.edition, name)

    def provision(self, name: str) -> dict[str, Any]:
        """A provision of the edition."""
        return provision(self.edition, name)

    def cell(self, name: str, column: str, **keys: str) -> str:
        """A cell of one of its tables."""
        return cell(self.edition, name, column, **keys)

    def first_at_least(self, name: str, key: str, wanted: Fraction) -> dict[str, str] | None:
        """Return the first row whose key is at least what is wanted; an empty key has no upper limit."""
        for row in self.table(name):
            if row[key] == "" or exact(row[key]) >= wanted:
                return row
        return None

    def known(self, stated: bool | None) -> bool:
        """What is stated; what is not is true at best and false at worst."""
        return self.best if stated is None else stated

    def reading(self, name: str) -> str:
        """The reading of an interpretation: stated, or the codebook's default."""
        stated = (self.request.get("readings") or {}).get(name)
        return str(stated or interpretation(name)["default"])

    # ------------------------------------------------------------------------------------ conductors

    @property
    def material(self) -> str:
        """Metal of the ungrounded conductors."""
        return str(self.request["conductors"]["material"])

    @property
    def insulation(self) -> str:
        """Insulation in raceways; THWN-2 by the schema's default."""
        return self.request["conductors"].get("insulation") or "THWN-2"

    @property
    def grounding_material(self) -> str:
        """Metal of the grounding conductor; as the others by the schema's default."""
        installed = (self.request.get("installed") or {}).get("grounding_material")
        return installed or self.request["conductors"].get("grounding_material") or self.material

    def sizes(self) -> list[str]:
        """Return the conductor sizes, smallest first."""
        return [row["size"] for row in self.table("conductor_properties")]

    def area_cmil(self, size: str) -> Fraction:
        """Return the circular mils of a size: chapter 9, table 8."""
        return exact(self.cell("conductor_properties", "area_cmil", size=size))

    def ampacity_a(self, material: str, size: str, column_c: int) -> Fraction | None:
        """Return the ampacity of table 310.16, or None where the size is not made of the metal."""
        found = self.cell("ampacity", f"{material}_{column_c}", size=size)
        return exact(found) if found else None

    # ------------------------------------------------------------------------- charger, supply, premises

    @property
    def charger(self) -> Json:
        """The charger."""
        return dict(self.request["charger"])

    @property
    def connection(self) -> Json:
        """How the charger is connected."""
        return dict(self.charger["connection"])

    @property
    def plugged(self) -> bool:
        """Whether it is by a receptacle."""
        return bool(self.connection["kind"] == "receptacle")

    @property
    def phases(self) -> int:
        """Phases that the charger gets: what it uses, one by the schema's default, where the supply has them.

        That a split-phase system has no three is a failure of its own.
        """
        return min(self.stated_phases, int(self.supply("phases")))

    @property
    def stated_phases(self) -> int:
        """Phases that the charger is said to use."""
        return int(self.request["supply"].get("phases") or 1)

    def supply(self, column: str) -> str:
        """What the table of voltages says of the supply system."""
        return self.cell("nominal_voltages", column, system=self.request["supply"]["system"])

    @property
    def to_ground_v(self) -> Fraction:
        """Voltage to ground."""
        return exact(self.supply("to_ground_v"))

    @property
    def occupancy(self) -> str | None:
        """Kind of building, if stated."""
        return (self.request.get("premises") or {}).get("occupancy")

    @property
    def charger_location(self) -> str | None:
        """Where the charger is, if stated."""
        return (self.request.get("premises") or {}).get("charger_location")

    @property
    def points(self) -> list[Json]:
        """Devices and splices on the run."""
        return self.request.get("points") or []

    def terminals(self) -> list[Json]:
        """Rule 3: markings of the breaker, each point, and the receptacle or else the hardwired charger."""
        at_charger = self.connection.get("terminals") if self.plugged else self.charger.get("terminals")
        found = [(self.request.get("breaker") or {}).get("terminals"), at_charger]
        found += [point.get("terminals") for point in self.points]
        return [marking or {} for marking in found]

    # -------------------------------------------------------------------------------------- segments

    @property
    def run(self) -> list[Json]:
        """The segments."""
        return list(self.request["run"])

    def location(self, segment: Json) -> str:
        """Location of a segment: wet underground; unknown is wet at worst, dry at best."""
        if segment.get("underground"):
            return "wet"
        return segment.get("location") or ("dry" if self.best else "wet")

    def method(self, segment: Json, column: str) -> str:
        """What the table of wiring methods says of a segment's."""
        return self.cell("wiring_methods", column, wiring_method=segment["wiring_method"])

    def is_cable(self, segment: Json) -> bool:
        """Whether a segment is cable rather than raceway."""
        return self.method(segment, "kind") == "cable"

    def is_nipple(self, segment: Json) -> bool:
        """Rule 9, chapter 9, note 4: a raceway of no more than 24 in with an enclosure at each end.

        The panel, the charger and every point are enclosures; from one raceway straight into the next there
        is none.
        """
        place = next(place for place, other in enumerate(self.run) if other is segment)
        boxes = {-1, len(self.run) - 1} | {point["after_segment"] for point in self.points}
        short = feet(segment["length"]) * 12 <= exact(self.provision("nipple")["longest_in"])
        return short and not self.is_cable(segment) and {place - 1, place} <= boxes

    def ambient_c(self, segment: Json) -> Fraction:
        """The ambient, and 33 degC more close above a roof in the sun, save for one insulation in raceways."""
        stated = segment.get("ambient_c")
        ambient = exact(self.provision("base-ambient")["ambient_c"] if stated is None else stated)
        clearance, rule = segment.get("rooftop_clearance"), self.provision("rooftop")
        exempt = self.insulation == rule["exempt_insulation"] and not self.is_cable(segment)
        if clearance is None or exempt:
            return ambient
        enough = rule["clearance_in"]
        if self.reading("rooftop-clearance") == "three-quarters-inch":
            # Only editions with two readings print two clearances.
            enough = rule.get("clearance_smaller_in", enough)
        close = feet(clearance) * 12 < exact(enough)
        return ambient + exact(rule["adder_c"]) if close else ambient

    def has_neutral(self) -> bool:
        """The receptacle's configuration decides, or the hardwired charger."""
        if self.plugged:
            return (
                self.cell("receptacles", "neutral", configuration=self.connection["configuration"]) == "yes"
            )
        return bool(self.charger.get("uses_neutral"))

    @property
    def ungrounded(self) -> int:
        """Ungrounded conductors of the circuit: one each phase, two of a single phase."""
        return 3 if self.phases == 3 else 2

    def current_carrying(self, segment: Json) -> int:
        """310.15(E): the ungrounded, a neutral beside two of a wye's three phases, and those of other circuits.

        A bundled cable of which nothing is said has two.
        """
        rule = self.provision("neutral-count")
        counts = rule["three_phase_counts"] if self.phases == 3 else rule["wye_counts"]
        wye = self.request["supply"]["system"].startswith("wye")
        neutral = self.has_neutral() and wye and counts == "yes"
        others = segment.get("other_current_carrying_conductors")
        if others is None:
            others = 2 * (self.bundled(segment) - 1)
        return self.ungrounded + neutral + int(others)

    def bundled(self, segment: Json) -> int:
        """Cables that lie together; a raceway has none."""
        return int(segment.get("bundled_cables") or 1) if self.is_cable(segment) else 1

    def in_insulation(self, segment: Json) -> bool:
        """Whether a cable lies in thermal insulation."""
        return self.is_cable(segment) and bool(segment.get("in_thermal_insulation"))

    def count_factor(self, segment: Json) -> Fraction:
        """310.15(C)(1): adjustment for more than three.

        None in a nipple (rule 9), nor over a short length of cable, save in a sealed bundle of several.
        """
        if self.is_nipple(segment):
            return Fraction(1)
        if self.is_cable(segment):
            most = self.method(segment, "bundle_count")
            sealed = bool(most) and self.in_insulation(segment) and self.bundled(segment) > int(most)
            short = feet(segment["length"]) * 12 <= exact(self.provision("bundling")["longest_in"])
            if short and not sealed:
                return Fraction(1)
        count = Fraction(self.current_carrying(segment))
        row = self.first_at_least("conductor_count_adjustment", "up_to_count", count)
        assert row is not None
        return exact(row["percent"]) / 100

    def conductor_column_c(self, segment: Json) -> int:
        """Rules 1 and 4: the column of the conductors' own temperature, where correction starts.

        A cable has its article's, or what is marked on it where the article lets the marking count; a
        raceway's conductors that of their insulation. The lowest where the insulation may not be used: that
        it may not is another rule's failure, or undetermined where the location is unknown.
        """
        if self.is_cable(segment):
            marked = (segment.get("cable") or {}).get("conductor_temperature_rating_c")
            if marked and self.method(segment, "marked_rating") == "yes":
                return int(marked)
            return int(self.method(segment, "ampacity_start_c"))
        return int(self.cell("insulations", f"{self.location(segment)}_c", insulation=self.insulation) or 60)

    def column_cap_c(self, segment: Json, size: str) -> int | None:
        """Rule 4, 334.80 and the like: the column that caps a cable, always or in thermal insulation."""
        caps = [self.method(segment, "ampacity_cap_c")]
        if self.in_insulation(segment):
            up_to = self.method(segment, "insulated_cap_up_to")
            if not up_to or self.area_cmil(size) <= self.area_cmil(up_to):
                caps.append(self.method(segment, "insulated_cap_c"))
        return min((int(cap) for cap in caps if cap), default=None)
