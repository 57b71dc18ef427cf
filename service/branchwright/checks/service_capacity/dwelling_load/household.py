"""The dwelling's facts with the places where they were stated, its supply, and what is assumed of unknown ones."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Generic, Literal, TypeAlias, TypeVar

from branchwright.checks.service_capacity.dwelling_load.facts import (
    Appliance,
    Dwelling,
    DwellingCharger,
    Item,
    LoadManagement,
    SpaceHeating,
)
from branchwright.checks.service_capacity.dwelling_load.facts import Heating as HeatingKind
from branchwright.codebook import Book, EditionBook
from branchwright.findings import Sourced, StepInput
from branchwright.questions.current_setting import setting_counts
from branchwright.questions.fields import System
from branchwright.questions.ledger import stated

Assumption: TypeAlias = Literal["reported", "worst", "best"]
"""How unknown facts are taken: for the answer, and as high and as low as they could be."""

T = TypeVar("T")
T_co = TypeVar("T_co", covariant=True)


@dataclass(slots=True, frozen=True)
class Placed(Generic[T_co]):
    """Facts with the JSON pointer of the place where they are stated, and a name for expressions."""

    pointer: str
    name: str
    facts: T_co

    def stated(self, value: float, unit: str, field: str) -> StepInput:
        """Return a value of these facts as the input of a step."""
        return stated(value, unit, f"{self.pointer}/{field}")


def placed(facts: Sequence[T] | None, pointer: str, name: str) -> tuple[Placed[T], ...]:
    """Return the items of a list with their places; none where it is not stated."""
    return tuple(
        Placed(f"{pointer}/{index}", f"{name}_{index}", item) for index, item in enumerate(facts or ())
    )


@dataclass(slots=True, frozen=True)
class Supply:
    """What is known of the service or feeder; `at` is the pointer of its facts."""

    system: System | None = None
    phases: int | None = None
    rating_a: float | None = None
    conductor_ampacity_a: float | None = None
    at: str = "/service"


class Household:
    """A dwelling as the methods see it, under one assumption about unknown facts."""

    def __init__(
        self,
        dwelling: Dwelling,
        book: Book,
        supply: Supply,
        *,
        at: str = "/dwelling",
        chargers: Sequence[Placed[DwellingCharger]] | None = None,
        assumption: Assumption = "reported",
    ) -> None:
        """Bind a dwelling to an edition and a supply.

        Args:
            dwelling: its facts.
            book: the edition and the readings in force.
            supply: the service; without a system there is no voltage.
            at: the JSON pointer where the dwelling is stated.
            chargers: chargers to count in place of the dwelling's own, with their places.
            assumption: how unknown facts are taken.
        """
        self.dwelling = dwelling
        self.book = book
        self.edition: EditionBook = book.edition
        self.supply = supply
        self.at = at
        self.assumption: Assumption = assumption
        self.unknown: set[str] = set()
        """Pointers to facts that were asked for, are not stated, and may move a total."""
        self.ranges = placed(dwelling.ranges, at + "/ranges", "cooking")
        self.dryers = placed(dwelling.dryers, at + "/dryers", "dryer")
        self.appliances = placed(dwelling.appliances, at + "/appliances", "appliance")
        self.heating = placed(dwelling.heating, at + "/heating", "heating")
        self.cooling = placed(dwelling.cooling, at + "/cooling", "cooling")
        self.heat_pumps = placed(dwelling.heat_pumps, at + "/heat_pumps", "heat_pump")
        self.management: tuple[Placed[LoadManagement], ...] = placed(
            dwelling.load_management, at + "/load_management", "management"
        )
        self.chargers: tuple[Placed[DwellingCharger], ...] = (
            placed(dwelling.chargers, at + "/chargers", "charger") if chargers is None else tuple(chargers)
        )
        self.voltage: Sourced | None = None
        self.phases = 1
        if supply.system is not None:
            self.voltage = self.edition.voltage_between_lines(supply.system)
            # A system that has fewer phases than stated is a failing finding; the load counts what it has.
            self.phases = int(min(supply.phases or 1, self.edition.greatest_phases(supply.system).number))

    @property
    def is_wye_three_wire(self) -> bool:
        """Whether two lines and the neutral of a wye system supply the dwelling."""
        return self.supply.system == "wye-208y-120" and self.phases == 1

    def assuming(self, assumption: Assumption) -> "Household":
        """Return the same household under another assumption, with nothing consulted yet."""
        return Household(
            self.dwelling,
            self.book.afresh(),
            self.supply,
            at=self.at,
            chargers=self.chargers,
            assumption=assumption,
        )

    def is_fastened(self, appliance: Placed[Appliance]) -> bool:
        """Return whether an appliance is fastened in place; no reduction is taken for one that may not be."""
        fastened = appliance.facts.fastened_in_place
        if fastened is None:
            self.unknown.add(appliance.pointer + "/fastened_in_place")
            return self.assumption == "best"
        return fastened

    def is_counted(self, appliance: Placed[Appliance]) -> bool:
        """Return whether an appliance is a load of its own; a portable one without a circuit of its own is not."""
        fastened, on_own_circuit = appliance.facts.fastened_in_place, appliance.facts.on_own_circuit
        if fastened or on_own_circuit:
            return True
        if fastened is False and on_own_circuit is False:
            return False
        missing = "fastened_in_place" if fastened is None else "on_own_circuit"
        self.unknown.add(f"{appliance.pointer}/{missing}")
        return self.assumption != "best"

    def motor_va(self, appliance: Placed[Appliance]) -> StepInput | None:
        """Return the motor of an appliance, VA; None where it has none."""
        facts = appliance.facts
        motor = facts.motor
        if motor is None:
            motor = facts.motor_va is not None or facts.motor_hp is not None
            if not motor:
                self.unknown.add(appliance.pointer + "/motor")
                motor = self.assumption == "worst"
        if not motor:
            return None
        if facts.motor_va is not None:
            return appliance.stated(facts.motor_va, "VA", "motor_va")
        return appliance.stated(facts.rating_va, "VA", "rating_va")

    def uses_neutral(self, appliance: Placed[Appliance]) -> bool:
        """Return whether the neutral carries an appliance: one from line to neutral, or of unknown voltage."""
        facts = appliance.facts
        if facts.uses_neutral is not None and facts.voltage_v is None:
            return facts.uses_neutral
        if facts.voltage_v is None or facts.uses_neutral:
            return True
        system = self.supply.system or "split-phase-120-240"
        between = self.edition.voltage_between_lines(system).number
        to_ground = self.edition.voltage_to_ground(system).number
        return facts.voltage_v < (between + to_ground) / 2

    def heating_kind(self, heating: Placed[SpaceHeating]) -> HeatingKind:
        """Return how a heating is controlled; central where neither kind nor number of units is stated."""
        facts = heating.facts
        if facts.kind is not None:
            return facts.kind
        return "central" if facts.separately_controlled_units is None else "separately-controlled"

    @property
    def separately_controlled_units(self) -> int:
        """The number of heating units with a control each."""
        return sum(
            item.facts.separately_controlled_units or 1
            for item in self.heating
            if self.heating_kind(item) == "separately-controlled"
        )

    @property
    def adds_heating_or_cooling(self) -> bool:
        """Whether any heating or cooling is being added."""
        lists = self.lists
        return any(item.facts.new for name in ("heating", "cooling", "heat_pumps") for item in lists[name])

    @property
    def lists(self) -> dict[str, tuple[Placed[Item], ...]]:
        """All loads by the name of the list that they stand in."""
        return {
            "ranges": self.ranges,
            "dryers": self.dryers,
            "appliances": self.appliances,
            "heating": self.heating,
            "cooling": self.cooling,
            "heat_pumps": self.heat_pumps,
            "chargers": self.chargers,
        }

    @property
    def adds_anything(self) -> bool:
        """Whether anything is being added, so that the dwelling is there already."""
        return any(item.facts.new for items in self.lists.values() for item in items)

    def setting_counts(self, charger: Placed[DwellingCharger]) -> bool:
        """Return whether a charger's setting stands for its rating."""
        facts = charger.facts
        counts = setting_counts(
            self.book, facts.setting_access, fastened_in_place=facts.connection != "receptacle"
        )
        if counts is None:
            self.unknown.add(charger.pointer + "/setting_access")
            return self.assumption == "best"
        return counts
