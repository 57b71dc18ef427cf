"""A request for a load calculation as the oracle reads it: exact numbers, and what stands for facts left out."""

from dataclasses import dataclass, field
from fractions import Fraction
from math import sqrt
from typing import Any, TypeAlias

from tests.checks.service_capacity import load_tables as tables

Json: TypeAlias = dict[str, Any]

DEFAULT_READINGS = {
    "charger-in-optional-method": "full-value",
    "existing-heating-and-cooling": "in-the-pool",
    "added-heating-and-cooling": "at-full-value",
    "omitted-motor": "compared",
    "setting-as-rating": "nameplate",
}


def exact(value: Any) -> Fraction:
    """Return a number of a request as the decimal fraction that was written."""
    return Fraction(str(value))


def of(item: Json, name: str) -> Fraction:
    """Return a number of an item, zero where it is not stated."""
    value = item.get(name)
    return Fraction(0) if value is None else exact(value)


@dataclass
class Home:
    """One dwelling with its service, as stated; VA, A, V and ft2 as exact fractions."""

    request: Json
    dwelling: Json = field(default_factory=dict)

    def __post_init__(self) -> None:
        """Take the dwelling out of the request unless another one is given."""
        self.dwelling = self.dwelling or self.request["dwelling"]

    @property
    def edition(self) -> str:
        """The edition asked for."""
        return str(self.request["edition"])

    @property
    def service(self) -> Json:
        """The service, split-phase where none is stated."""
        return self.request.get("service") or {"system": "split-phase-120-240"}

    @property
    def three_phases(self) -> bool:
        """Whether the service has three phases; a split-phase one that is said to have is contradicted elsewhere."""
        return self.service.get("phases") == 3 and self.wye

    @property
    def wye(self) -> bool:
        """Whether the lines are two or three of a 208Y/120 V system."""
        return self.service.get("system") == "wye-208y-120"

    @property
    def line_v(self) -> Fraction:
        """Volts between lines."""
        return Fraction(208) if self.wye else Fraction(240)

    def current_a(self, load_va: Fraction) -> Fraction:
        """Current of a balanced load; three phases share it by the square root of three."""
        if self.three_phases:
            return load_va / (self.line_v * Fraction(sqrt(3)))
        return load_va / self.line_v

    def reading(self, name: str) -> str:
        """The reading of a disputed provision."""
        return str((self.request.get("readings") or {}).get(name) or DEFAULT_READINGS[name])

    def items(self, kind: str) -> list[Json]:
        """The items of one list of the dwelling."""
        return list(self.dwelling.get(kind) or [])

    # ------------------------------------------------------------------------------- single items

    def circuits_va(self) -> Fraction:
        """Small-appliance and laundry circuits, 220.52: those stated, and no fewer than the least."""
        small = self.dwelling.get("small_appliance_circuits") or 0
        laundry = self.dwelling.get("laundry_circuits") or 0
        return tables.SMALL_CIRCUIT_VA * (
            max(exact(small), tables.LEAST_SMALL_APPLIANCE_CIRCUITS)
            + max(exact(laundry), tables.LEAST_LAUNDRY_CIRCUITS)
        )

    def lighting_va(self) -> Fraction:
        """General lighting by floor area."""
        return tables.LIGHTING_VA_PER_FT2[self.edition] * exact(self.dwelling["floor_area_ft2"])

    def setting_counts(self, charger: Json) -> bool:
        """625.42: whether a lower setting stands for the rating of a charger.

        2017 by one reading; 2020 for a hardwired one; from 2023 where access is restricted.
        """
        if self.edition == "nec-2017":
            return self.reading("setting-as-rating") == "setting"
        if self.edition == "nec-2020":
            return charger.get("connection") in ("hardwired", None)
        return charger.get("setting_access") == "restricted"

    def nameplate_va(self, charger: Json) -> Fraction | None:
        """What a charger takes, VA: its setting where that counts, else its rating; None where nothing is known."""
        setting, rated = charger.get("charging_current_a"), charger.get("rated_current_a")
        marked = charger.get("nameplate_va")
        rating = (
            exact(marked) if marked is not None else exact(rated) * self.line_v if rated is not None else None
        )
        set_va = None if setting is None else exact(setting) * self.line_v
        if rating is None:
            return set_va
        if set_va is not None and (set_va > rating or self.setting_counts(charger)):
            return set_va
        return rating

    def charger_va(self, charger: Json, *, part_three: bool) -> Fraction | None:
        """The load of one charger; None where it cannot be told. The 7,200 VA belong to the standard method."""
        own = self.nameplate_va(charger)
        least = tables.LEAST_CHARGER_VA[self.edition]
        if own is None:
            return Fraction(least) if least and self.edition in tables.LEAST_ONLY_WITHOUT_NAMEPLATE else None
        if part_three and least and self.edition not in tables.LEAST_ONLY_WITHOUT_NAMEPLATE:
            return max(own, Fraction(least))
        return own

    def many_units(self) -> bool:
        """Whether four or more electric heaters have each its own control."""
        return self.separate_units() >= tables.MANY

    def separate_units(self) -> Fraction:
        """How many heaters have each its own control."""
        separate = [
            heat for heat in self.items("heating") if self.heating_kind(heat) == "separately-controlled"
        ]
        return sum((exact(heat.get("separately_controlled_units") or 1) for heat in separate), Fraction(0))

    def heating_kind(self, heat: Json) -> str:
        """The kind that is stated; a number of units means that each has its own control."""
        stated = heat.get("kind")
        if stated is not None:
            return str(stated)
        return "separately-controlled" if heat.get("separately_controlled_units") else "central"

    def adds_anything(self) -> bool:
        """Whether anything in the dwelling is being added."""
        kinds = ("ranges", "dryers", "appliances", "heating", "cooling", "heat_pumps", "chargers")
        return any(item.get("new") for kind in kinds for item in self.items(kind))

    def has_new_heating_or_cooling(self) -> bool:
        """Whether any heating or cooling is being added, 220.83(B)."""
        return any(
            item.get("new") for kind in ("heating", "cooling", "heat_pumps") for item in self.items(kind)
        )
