"""The request model of an installation estimate: the circuit, the site, what is supplied, and what things cost."""

from typing import Annotated, Literal, TypeAlias

from pydantic import BeforeValidator, Field

from branchwright.checks.circuits.facts import CircuitDesignRequest, Depth
from branchwright.jobs.installation.price_facts import Condition, LabourTable, PriceBook
from branchwright.questions.fields import Facts, Number, Percent, RatingA, Yes, whole

Few: TypeAlias = Annotated[int, Field(strict=True, ge=0, le=100), BeforeValidator(whole)]
Surface: TypeAlias = Literal["soil", "paving"]
Digging: TypeAlias = Literal["hand", "machine"]
Taxed: TypeAlias = Literal["material", "labour", "fee", "markup"]

MOST_DRAWS = 20_000
GREATEST_SEED = 2**32 - 1


class SegmentSite(Facts):
    """What the site is like along one segment of the run."""

    segment: Annotated[
        int,
        Field(strict=True, ge=0, le=49, description="Index of the circuit's segment."),
        BeforeValidator(whole),
    ]
    condition: Annotated[
        Condition | None,
        Field(description="Where the work is done. Not stated: taken as open, and a finding asks for it."),
    ] = None
    elbows: Annotated[
        Few | None,
        Field(
            description="Elbows of a raceway that are bought as fittings. Not stated: 2 underground, where it goes "
            "down and comes up; else none, bends being made on site."
        ),
    ] = None
    pull_points: Annotated[
        Few | None, Field(description="Conduit bodies or boxes to pull through. Not stated: none.")
    ] = None


class TravelDistance(Facts):
    """A distance by road with its unit."""

    value: Annotated[Number, Field(gt=0, le=100_000)]
    unit: Literal["mi", "km"]


class Travel(Facts):
    """The way to the site."""

    distance: Annotated[TravelDistance, Field(description="There and back.")]
    trips: Annotated[
        Annotated[int, Field(strict=True, ge=1, le=100), BeforeValidator(whole)],
        Field(description="How often it is made."),
    ]


class Site(Facts):
    """The site as the work meets it."""

    segments: Annotated[
        tuple[SegmentSite, ...] | None, Field(max_length=50, description="Conditions by segment of the run.")
    ] = None
    travel: Annotated[Travel | None, Field(description="Not stated: excluded.")] = None
    wall_patches: Annotated[Few | None, Field(description="Openings to close. Not stated: excluded.")] = None


class ReplacedPanel(Facts):
    """A panel that is replaced."""

    rating_a: RatingA


class Supplies(Facts):
    """What belongs to the job beside the circuit. What is not stated is excluded, and the answer says so."""

    charger: Annotated[
        Literal["by-customer", "by-contractor"] | None,
        Field(description="Who brings the charger; it is mounted in any case. Not stated: the customer."),
    ] = None
    energy_management: Annotated[
        Yes | None, Field(description="Equipment that holds the service below a setting, with its sensors.")
    ] = None
    meter_socket: Annotated[
        Yes | None,
        Field(description="A socket for a meter. One that the circuit's points state is counted anyway."),
    ] = None
    submeter: Annotated[
        Yes | None, Field(description="A submeter. One that the circuit's points state is counted anyway.")
    ] = None
    panel: Annotated[ReplacedPanel | None, Field(description="A panel that is replaced.")] = None
    permit: Annotated[
        Yes | None, Field(description="The permit's fee, obtaining it, and being there for inspection.")
    ] = None
    paperwork: Annotated[Yes | None, Field(description="Papers for rebates and for the utility.")] = None
    load_calculation: Annotated[Yes | None, Field(description="A written calculation of the load.")] = None


class Trench(Facts):
    """How the trench is dug; its length and depth are those of the circuit's segments underground."""

    surface: Annotated[Surface | None, Field(description="What is opened and restored.")] = None
    by: Annotated[Digging | None, Field(description="What digs.")] = None


class Waste(Facts):
    """What is bought beyond what is built in. What is not stated is common practice, and is to be verified."""

    cable_percent: Annotated[
        Percent | None, Field(description="Of conductors and cable. Not stated: 7.5.")
    ] = None
    cable_ends: Annotated[
        Depth | None,
        Field(description="For the two ends of each conductor or cable together. Not stated: 2.5 m."),
    ] = None
    raceway_percent: Annotated[Percent | None, Field(description="Not stated: 7.5.")] = None
    fittings_percent: Annotated[
        Percent | None, Field(description="Of fittings and straps. Not stated: 15.")
    ] = None
    consumables_percent: Annotated[
        Percent | None,
        Field(description="Small parts, in percent of the material save a charger. Not stated: 3.5."),
    ] = None


class Tax(Facts):
    """A tax on parts of the price."""

    percent: Percent
    on: Annotated[
        tuple[Taxed, ...],
        Field(min_length=1, max_length=4, description="What it is on; one stated twice counts once."),
    ]


class Risk(Facts):
    """How the spread of the total is drawn."""

    seed: Annotated[
        Annotated[int, Field(strict=True, ge=0, le=GREATEST_SEED), BeforeValidator(whole)] | None,
        Field(description="Of the random numbers; the same one gives the same figures. Not stated: 1."),
    ] = None
    draws: Annotated[
        Annotated[int, Field(strict=True, ge=100, le=MOST_DRAWS), BeforeValidator(whole)] | None,
        Field(description="How often the total is drawn. Not stated: 10000."),
    ] = None


class JobFacts(Facts):
    """What an estimate is told beside circuit and prices: site, supplies, trench, waste, markup and tax."""

    site: Site | None = None
    supplies: Supplies | None = None
    trench: Annotated[
        Trench | None, Field(description="For segments underground. Not stated: the trench stays unpriced.")
    ] = None
    waste: Waste | None = None
    markup_percent: Annotated[
        Annotated[Number, Field(ge=0, le=1000)] | None,
        Field(description="Of material, labour and fees together. Not stated: none."),
    ] = None
    tax: Annotated[Tax | None, Field(description="Not stated: excluded.")] = None


class InstallationEstimateRequest(JobFacts):
    """What will the installation take and cost?"""

    circuit: Annotated[
        CircuitDesignRequest,
        Field(description="The body of a circuit design; its design is what is taken off."),
    ]
    price_book: Annotated[
        PriceBook | None, Field(description="Not stated: the demo book, whose prices are invented.")
    ] = None
    labour_table: Annotated[
        LabourTable | None, Field(description="Not stated: the demo table, whose hourly rate is invented.")
    ] = None
    risk: Risk | None = None
