"""Whether a method may be used for a dwelling and its supply."""

from dataclasses import dataclass

from branchwright.checks.service_capacity.dwelling_load.facts import Method
from branchwright.checks.service_capacity.dwelling_load.household import Household


@dataclass(slots=True, frozen=True)
class Permission:
    """Whether a method is permitted, None where a fact is missing, why, and the pointer of that fact."""

    permitted: bool | None
    why: str
    pointer: str | None = None


def permission(household: Household, method: Method) -> Permission:
    """Return whether a method may be used."""
    if method == "standard":
        return Permission(True, "The standard method is for every dwelling.")
    if household.supply.system is None:
        return Permission(
            None,
            "The method is for one three-wire supply of 120/240 V or 208Y/120 V; the supply is not stated.",
            household.supply.at,
        )
    if household.phases != 1:
        return Permission(
            False,
            "The method is for a three-wire supply; this one has three phases.",
            household.supply.at + "/phases",
        )
    return _for_new(household) if method == "optional-new" else _for_existing(household)


def _for_new(household: Household) -> Permission:
    """The optional method for a dwelling asks for an ampacity of the conductors.

    Where it is not stated, the rating of the service tells what the conductors must have at least.
    """
    edition, supply = household.edition, household.supply
    least_a = edition.provision("optional-dwelling-load").number("least_ampacity_a")
    pointer = supply.at + "/conductor_ampacity_a"
    if supply.conductor_ampacity_a is not None:
        reaches = supply.conductor_ampacity_a >= least_a
        return Permission(
            reaches,
            f"The method asks for conductors of {least_a:g} A or more; these have "
            f"{supply.conductor_ampacity_a:g} A.",
            pointer,
        )
    share = edition.provision("dwelling-service-conductors").number("percent") / 100
    if supply.rating_a is not None and share * supply.rating_a >= least_a:
        return Permission(
            True,
            f"The method asks for conductors of {least_a:g} A or more; those of a service of "
            f"{supply.rating_a:g} A have at least {share * supply.rating_a:g} A.",
        )
    return Permission(
        None,
        f"The method asks for conductors of {least_a:g} A or more; their ampacity is not stated.",
        pointer,
    )


def _for_existing(household: Household) -> Permission:
    if household.adds_anything:
        return Permission(True, "Load is being added to a dwelling that is there already.")
    return Permission(
        None,
        "The method is for a dwelling that is there already and takes on load; nothing is stated to be new.",
        household.at,
    )
