"""The request model of a load calculation: the dwelling, what stands in it, and the service if there is one."""

from typing import Annotated, Literal, TypeAlias

from pydantic import BeforeValidator, Field

from branchwright.questions.fields import (
    Access,
    CurrentA,
    Edition,
    Facts,
    Jurisdiction,
    Name,
    Number,
    RatingA,
    ServicePhases,
    SupplySystem,
    Yes,
    whole,
)
from branchwright.questions.readings import Readings

Connection: TypeAlias = Literal["hardwired", "receptacle"]
Occupancy: TypeAlias = Literal["one-family", "two-family", "multifamily", "other"]
Cooking: TypeAlias = Literal["range", "wall-oven", "counter-cooking-unit"]
Heating: TypeAlias = Literal["central", "separately-controlled", "thermal-storage"]
Method: TypeAlias = Literal["standard", "optional-new", "optional-existing"]

METHODS: tuple[Method, ...] = ("standard", "optional-new", "optional-existing")
MOST_ITEMS = 100
"""Items of one kind in a dwelling; the tables of the code end below that."""

GREATEST_AREA_FT2 = 1_000_000
GREATEST_LOAD_VA = 1_000_000

LoadVa: TypeAlias = Annotated[Number, Field(gt=0, le=GREATEST_LOAD_VA)]
VoltageV: TypeAlias = Annotated[Number, Field(ge=100, le=250)]


class Item(Facts):
    """Anything in the dwelling that takes a load of its own."""

    name: Annotated[
        Name | None,
        Field(description="For the reader. The same name in two lists is one thing listed twice."),
    ] = None
    new: Annotated[
        Yes | None, Field(description="Whether it is being added. Not stated: it is there already.")
    ] = None


class CookingAppliance(Item):
    """A household electric cooking appliance."""

    kind: Annotated[
        Cooking,
        Field(description="Range with oven and top in one, wall-mounted oven, or counter-mounted unit."),
    ]
    rating_w: Annotated[LoadVa, Field(description="Nameplate rating, W.")]


class Dryer(Item):
    """A household electric clothes dryer that is not on the laundry circuit."""

    rating_w: Annotated[LoadVa, Field(description="Nameplate rating, W.")]


class Appliance(Item):
    """An appliance that is no cooking appliance, dryer, heating, cooling or charger."""

    rating_va: Annotated[LoadVa, Field(description="Nameplate rating, VA; of a heating appliance its W.")]
    fastened_in_place: Annotated[
        Yes | None,
        Field(
            description="Whether it is fastened in place or permanently connected. Not stated: unknown, and no "
            "reduction is taken for it."
        ),
    ] = None
    on_own_circuit: Annotated[
        Yes | None,
        Field(
            description="Whether a portable one is on a circuit of its own; without one it is part of the general "
            "load. Not stated: unknown, and it is counted."
        ),
    ] = None
    motor: Annotated[
        Yes | None,
        Field(description="Whether it is a motor or driven by one. Not stated: taken as none, and verified."),
    ] = None
    motor_va: Annotated[
        LoadVa | None,
        Field(description="Part of the rating that the motor takes, VA. Not stated: all of it."),
    ] = None
    motor_hp: Annotated[
        Annotated[Number, Field(gt=0, le=1000)] | None,
        Field(description="Rating of the motor, hp. Not stated: the rating in VA alone decides."),
    ] = None
    voltage_v: Annotated[
        VoltageV | None,
        Field(
            description="Rated voltage, V: near 120 from line to neutral, near 208 or 240 between lines. "
            "Not stated: the neutral is taken to carry it."
        ),
    ] = None
    uses_neutral: Annotated[
        Yes | None,
        Field(description="Whether one between lines needs the neutral as well. Not stated: it does not."),
    ] = None


class SpaceHeating(Item):
    """Fixed electric space heating apart from heat pumps."""

    rating_w: Annotated[LoadVa, Field(description="Nameplate rating of all its units together, W.")]
    kind: Annotated[
        Heating | None,
        Field(
            description="How it is controlled; thermal-storage is any that runs continuously at its full rating. Not "
            "stated: separately-controlled where a number of units is, else central."
        ),
    ] = None
    separately_controlled_units: Annotated[
        Annotated[int, Field(strict=True, ge=1, le=MOST_ITEMS), BeforeValidator(whole)] | None,
        Field(description="Units with a control each. Not stated: one."),
    ] = None


class Cooling(Item):
    """Air conditioning or another cooling load that is no heat pump."""

    rating_va: Annotated[LoadVa, Field(description="Nameplate rating, VA.")]
    motor_va: Annotated[
        LoadVa | None,
        Field(description="Part of the rating that its largest motor takes, VA. Not stated: all of it."),
    ] = None


class HeatPump(Item):
    """A heat pump; it cools as well."""

    compressor_va: Annotated[
        LoadVa, Field(description="Nameplate rating of the compressor and its fans, VA.")
    ]
    supplemental_heat_w: Annotated[
        LoadVa | None,
        Field(description="Nameplate rating of its supplemental electric heat, W. Not stated: it has none."),
    ] = None
    interlocked: Annotated[
        Yes | None,
        Field(
            description="Whether the compressor is kept from running together with the supplemental heat. "
            "Not stated: it is not."
        ),
    ] = None


class DwellingCharger(Item):
    """A charger as a load of the dwelling."""

    charging_current_a: Annotated[
        CurrentA | None, Field(description="Continuous current that it is set to, A.")
    ] = None
    rated_current_a: Annotated[
        CurrentA | None,
        Field(description="Current on its nameplate, A. Not stated: the charging current is taken for it."),
    ] = None
    nameplate_va: Annotated[
        LoadVa | None,
        Field(description="Load on its nameplate, VA. Not stated: the current times the voltage."),
    ] = None
    setting_access: Annotated[
        Access | None,
        Field(
            description="Whether the current setting is reachable only by a tool, key, seal or password. "
            "Not stated: unknown."
        ),
    ] = None
    connection: Annotated[
        Connection | None,
        Field(
            description="How it is connected; an edition may let a setting count for hardwired ones alone. "
            "Not stated: hardwired."
        ),
    ] = None
    managed_by: Annotated[
        Name | None, Field(description="Name of the load management that holds it. Not stated: none does.")
    ] = None


class LoadManagement(Facts):
    """Equipment that holds the current of several chargers together below a setting."""

    name: Name
    control_setting_a: Annotated[
        CurrentA, Field(description="Current that its chargers may draw together, A.")
    ]


class Dwelling(Facts):
    """One dwelling unit and what stands in it. A list that is not stated is empty."""

    floor_area_ft2: Annotated[
        Annotated[Number, Field(ge=0, le=GREATEST_AREA_FT2)] | None,
        Field(
            description="Floor area by the outside dimensions, without open porches, garages and spaces that cannot "
            "be made use of, ft2. Not stated: unknown, and no method gives a total."
        ),
    ] = None
    small_appliance_circuits: Annotated[
        Annotated[int, Field(strict=True, ge=0, le=MOST_ITEMS), BeforeValidator(whole)] | None,
        Field(
            description="Small-appliance branch circuits. Not stated: the least that the edition asks for."
        ),
    ] = None
    laundry_circuits: Annotated[
        Annotated[int, Field(strict=True, ge=0, le=MOST_ITEMS), BeforeValidator(whole)] | None,
        Field(description="Laundry branch circuits. Not stated: the least that the edition asks for."),
    ] = None
    ranges: Annotated[tuple[CookingAppliance, ...] | None, Field(max_length=MOST_ITEMS)] = None
    dryers: Annotated[tuple[Dryer, ...] | None, Field(max_length=MOST_ITEMS)] = None
    appliances: Annotated[tuple[Appliance, ...] | None, Field(max_length=MOST_ITEMS)] = None
    heating: Annotated[tuple[SpaceHeating, ...] | None, Field(max_length=MOST_ITEMS)] = None
    cooling: Annotated[tuple[Cooling, ...] | None, Field(max_length=MOST_ITEMS)] = None
    heat_pumps: Annotated[tuple[HeatPump, ...] | None, Field(max_length=MOST_ITEMS)] = None
    chargers: Annotated[tuple[DwellingCharger, ...] | None, Field(max_length=MOST_ITEMS)] = None
    load_management: Annotated[tuple[LoadManagement, ...] | None, Field(max_length=MOST_ITEMS)] = None


class DwellingService(Facts):
    """The service or feeder of the dwelling."""

    rating_a: Annotated[
        RatingA | None, Field(description="Rating of the service, A. Not stated: not judged.")
    ] = None
    system: SupplySystem
    phases: ServicePhases = None
    conductor_ampacity_a: Annotated[
        RatingA | None,
        Field(
            description="Ampacity of the service or feeder conductors, A; for the optional method. Not stated: what "
            "the rating asks for at least."
        ),
    ] = None


class LoadCalculationRequest(Facts):
    """What is this dwelling's load by each permitted method?"""

    edition: Annotated[Edition, Field(description="Code edition to apply.")]
    jurisdiction: Jurisdiction = None
    readings: Readings | None = None
    occupancy: Annotated[
        Occupancy | None,
        Field(description="Kind of building; decides on the least service. Not stated: one-family."),
    ] = None
    service: Annotated[
        DwellingService | None,
        Field(description="Not stated: loads that need a voltage and all currents are undetermined."),
    ] = None
    dwelling: Dwelling
    methods: Annotated[
        tuple[Method, ...] | None,
        Field(
            min_length=1,
            max_length=len(METHODS),
            description="Methods to calculate by. Not stated: all. One that is named twice is calculated once.",
        ),
    ] = None
