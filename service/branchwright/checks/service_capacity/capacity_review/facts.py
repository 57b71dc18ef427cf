"""The request model of a service capacity review: the service, its load, the chargers, and what manages them."""

from typing import Annotated, Literal, TypeAlias

from pydantic import BeforeValidator, Field

from branchwright.checks.service_capacity.dwelling_load import Dwelling, Method
from branchwright.codebook.editions import Material
from branchwright.quantities.conductor_sizes import ConductorSize
from branchwright.questions.fields import (
    Access,
    CurrentA,
    Edition,
    Facts,
    Jurisdiction,
    Number,
    RatingA,
    ServicePhases,
    SupplySystem,
    Yes,
    whole,
)
from branchwright.questions.readings import Readings

MonitorPosition: TypeAlias = Literal["supply-side-of-generation", "load-side-of-generation"]

GREATEST_CHARGERS = 200
GREATEST_LOAD_W = 10_000_000


class ServiceConductors(Facts):
    """The ungrounded service conductors."""

    material: Annotated[
        Material | None, Field(description="Metal of the conductors. Needed with the size.")
    ] = None
    size: Annotated[
        ConductorSize | None,
        Field(description="Size of each of them. Not stated: their ampacity is taken as stated."),
    ] = None
    ampacity_a: Annotated[
        RatingA | None,
        Field(
            description="Ampacity after correction and adjustment, A: for larger sizes and for sets in parallel. It "
            "counts where both are stated."
        ),
    ] = None
    conductor_temperature_rating_c: Annotated[
        Literal[60, 75, 90] | None,
        BeforeValidator(whole),
        Field(description="Temperature rating printed on the conductors, degC. Not stated: 75."),
    ] = None
    terminal_temperature_rating_c: Annotated[
        Literal[60, 75, 90] | None,
        BeforeValidator(whole),
        Field(
            description="Lowest conductor temperature that the terminals at both ends are marked for, degC. "
            "Not stated: taken as unmarked."
        ),
    ] = None
    ambient_c: Annotated[
        Annotated[Number, Field(ge=-60, le=120)] | None,
        Field(
            description="Ambient temperature where they lie, degC. Not stated: that of the ampacity table."
        ),
    ] = None
    current_carrying_conductors: Annotated[
        Annotated[int, Field(strict=True, ge=1, le=100), BeforeValidator(whole)] | None,
        Field(description="Current-carrying conductors in their raceway or cable. Not stated: up to three."),
    ] = None
    carry_entire_load: Annotated[
        Yes | None,
        Field(description="Whether they carry the entire load of one dwelling unit. Not stated: unknown."),
    ] = None


class ReviewedService(Facts):
    """The service and its panel."""

    rating_a: Annotated[RatingA, Field(description="Rating of the service, A.")]
    system: SupplySystem
    phases: ServicePhases = None
    main_breaker_a: Annotated[
        RatingA | None, Field(description="Rating of the main breaker, A. Not stated: not judged.")
    ] = None
    busbar_rating_a: Annotated[
        RatingA | None, Field(description="Rating of the panel's busbar, A. Not stated: not judged.")
    ] = None
    backfeed_breaker_a: Annotated[
        RatingA | None,
        Field(
            description="Breaker of a source that feeds the busbar back, such as a solar inverter, A. "
            "Not stated: no such source."
        ),
    ] = None
    backfeed_output_a: Annotated[
        CurrentA | None,
        Field(description="Rated output current of that source, A. Not stated: its breaker's rating counts."),
    ] = None
    backfeed_opposite_main: Annotated[
        Yes | None,
        Field(
            description="Whether the source connects at the end of the busbar opposite to the main. "
            "Not stated: unknown."
        ),
    ] = None
    conductors: Annotated[
        ServiceConductors | None, Field(description="The service conductors. Not stated: not judged.")
    ] = None


class MeasuredExistingLoad(Facts):
    """The existing load by measured demand: the greatest demand of a record, and what is known of the record."""

    kind: Literal["measured"]
    measured_demand_w: Annotated[
        Annotated[Number, Field(ge=0, le=GREATEST_LOAD_W)],
        Field(description="Greatest demand of the record, W, as the mean over the averaging interval."),
    ]
    averaging_minutes: Annotated[
        Annotated[Number, Field(gt=0, le=1440)],
        Field(description="Averaging interval of the record, minutes."),
    ]
    days: Annotated[
        Annotated[Number, Field(ge=0, le=36_525)], Field(description="Days from its begin to its end.")
    ]
    coverage_percent: Annotated[
        Annotated[Number, Field(ge=0, le=100)] | None,
        Field(description="Readings that are there, percent of those that should be. Not stated: unknown."),
    ] = None
    has_generation: Annotated[
        Yes | None,
        Field(
            description="Whether generation or peak shaving behind the meter can hide load. Not stated: unknown."
        ),
    ] = None
    occupied: Annotated[
        Yes | None,
        Field(description="Whether the building was occupied in use during the record. Not stated: unknown."),
    ] = None
    seasonal_load_va: Annotated[
        Annotated[Number, Field(ge=0, le=GREATEST_LOAD_W)] | None,
        Field(
            description="Load that belongs to another season than the record's, VA, added to it; the larger of "
            "heating and cooling. 0: the record has it. Not stated: unknown."
        ),
    ] = None
    fifteen_minute_bound_w: Annotated[
        Annotated[Number, Field(ge=0, le=GREATEST_LOAD_W)] | None,
        Field(
            description="What no 15-minute demand can have exceeded, W, from the readings themselves. "
            "Not stated: computed from the greatest demand alone."
        ),
    ] = None


class CalculatedExistingLoad(Facts):
    """The existing load by one of the methods of the code."""

    kind: Literal["calculated"]
    method: Annotated[
        Method, Field(description="Standard, optional for a dwelling, or optional for an existing dwelling.")
    ]
    dwelling: Annotated[
        Dwelling, Field(description="The dwelling as it is, without the chargers to be added.")
    ]


class AddedCharger(Facts):
    """A charger that is to be added."""

    name: Annotated[
        Annotated[str, Field(strict=True, min_length=1, max_length=100)] | None,
        Field(description="For the reader; nothing depends on it."),
    ] = None
    charging_current_a: Annotated[CurrentA, Field(description="Continuous current that it is set to, A.")]
    rated_current_a: Annotated[
        CurrentA | None,
        Field(description="Current on its nameplate, A. Not stated: the charging current is taken for it."),
    ] = None
    setting_access: Annotated[
        Access | None,
        Field(
            description="Whether the current setting is reachable only by a tool, key, seal or password. "
            "Not stated: unknown."
        ),
    ] = None
    connection: Annotated[
        Literal["hardwired", "receptacle"] | None,
        Field(
            description="How it is connected; an edition may let a setting count for hardwired ones alone."
        ),
    ] = None
    settings_a: Annotated[
        tuple[CurrentA, ...] | None,
        Field(
            min_length=1,
            max_length=100,
            description="Currents that it can be set to, A. Not stated: whole amperes from 6, and its rated current.",
        ),
    ] = None
    managed: Annotated[
        Yes | None,
        Field(description="Whether the management controls it. Not stated: it does where there is one."),
    ] = None
    circuit_breaker_a: Annotated[
        RatingA | None, Field(description="Breaker of its own branch circuit, A. Not stated: not judged.")
    ] = None


class EnergyManagement(Facts):
    """Equipment that holds the current of the whole service below a setting by lowering the chargers."""

    control_setting_a: Annotated[
        RatingA, Field(description="Current of the service that it holds, per line, A.")
    ]
    fail_safe_current_a: Annotated[
        Annotated[Number, Field(ge=0, le=1000)] | None,
        Field(
            description="What each managed charger may draw when it has lost its monitor, A; 0 where it stops. "
            "Not stated: unknown."
        ),
    ] = None
    monitored_legs: Annotated[
        Annotated[int, Field(strict=True, ge=0, le=12), BeforeValidator(whole)] | None,
        Field(description="Ungrounded conductors of the service with a monitor. Not stated: unknown."),
    ] = None
    monitor_position: Annotated[
        MonitorPosition | None,
        Field(description="Where the monitors sit, seen from a source that feeds back. Not stated: unknown."),
    ] = None
    listed: Annotated[
        Yes | None, Field(description="Whether it is listed for energy management. Not stated: unknown.")
    ] = None
    link_loss_tested: Annotated[
        Yes | None,
        Field(description="Whether the lost link was tested on site. Not stated: unknown."),
    ] = None
    access: Annotated[
        Access | None, Field(description="Who can reach its settings. Not stated: unknown.")
    ] = None


class SharedCircuit(Facts):
    """One branch circuit that several of the chargers share under management."""

    chargers: Annotated[
        tuple[
            Annotated[int, Field(strict=True, ge=0, le=GREATEST_CHARGERS - 1), BeforeValidator(whole)], ...
        ],
        Field(
            min_length=2,
            max_length=GREATEST_CHARGERS,
            description="Places of its chargers in the list, from 0.",
        ),
    ]
    breaker_a: Annotated[RatingA, Field(description="Breaker of the circuit, A.")]
    control_setting_a: Annotated[
        CurrentA | None,
        Field(description="Current that the management lets them draw together, A. Not stated: unknown."),
    ] = None
    fail_safe_current_a: Annotated[
        Annotated[Number, Field(ge=0, le=1000)] | None,
        Field(
            description="What each of them may draw when it has lost the others, A; 0 where it stops. "
            "Not stated: unknown."
        ),
    ] = None
    listed: Annotated[
        Yes | None, Field(description="Whether the management is listed for it. Not stated: unknown.")
    ] = None


class CapacityReviewRequest(Facts):
    """Does the service carry the chargers; if not, what would make it fit?"""

    edition: Annotated[Edition, Field(description="Code edition to apply.")]
    jurisdiction: Jurisdiction = None
    readings: Readings | None = None
    occupancy: Annotated[
        Literal["one-family", "two-family", "multifamily", "other"] | None,
        Field(description="Kind of building; decides on the service conductors. Not stated: unknown."),
    ] = None
    service: ReviewedService
    existing_load: Annotated[CalculatedExistingLoad | MeasuredExistingLoad, Field(discriminator="kind")]
    chargers: Annotated[
        tuple[AddedCharger, ...],
        Field(min_length=1, max_length=GREATEST_CHARGERS, description="The chargers to be added."),
    ]
    management: Annotated[
        EnergyManagement | None, Field(description="Energy management of the service. Not stated: none.")
    ] = None
    shared_circuits: Annotated[
        tuple[SharedCircuit, ...] | None,
        Field(min_length=1, max_length=100, description="Circuits that several of the chargers share."),
    ] = None
