"""What an estimate says beside its findings: what was assumed, what it excludes, what was not examined, cautions."""

from collections.abc import Iterator
from typing import Final

from branchwright.checks.circuits.design import JudgedDesign
from branchwright.checks.circuits.facts import Receptacle
from branchwright.checks.circuits.given import Given
from branchwright.checks.circuits.remarks import cautions as circuit_cautions
from branchwright.checks.circuits.remarks import not_examined as circuit_not_examined
from branchwright.checks.circuits.remarks import to_verify as circuit_to_verify
from branchwright.jobs.installation.facts import JobFacts, Supplies
from branchwright.jobs.installation.job import (
    CABLE_ENDS_M,
    CABLE_PERCENT,
    CONSUMABLES_PERCENT,
    FITTINGS_PERCENT,
    RACEWAY_PERCENT,
    Job,
)
from branchwright.jobs.installation.price_keys import RACEWAYS, RIGID
from branchwright.jobs.installation.sources import Sources
from branchwright.jobs.installation.taking_off import TakenOff
from branchwright.questions.answers import ToVerify

CIRCUIT: Final = "/circuit"
"""Where the circuit stands in the request of an estimate."""

DEMO_PRICES: Final = (
    "The prices are invented and show how an estimate is made; no job can be offered at them."
)
DEMO_RATE: Final = (
    "The hourly rate is invented; the hours are common practice without a source, scaled from that, "
    "or invented."
)
NOT_A_QUOTE: Final = (
    "An estimate is no offer: it holds what was stated and designed, at the dated prices that it names."
)
NOT_EXAMINED: Final = [
    "whether the prices are still those of today",
    "access, parking, working hours, and waiting for the utility or for others",
    "what is found when walls, ground or equipment are opened",
]
ALWAYS_EXCLUDED: Final = [
    "charges of the utility, and work on service conductors and meters that are not stated",
    "repair of what is found unsound, asbestos, rock and groundwater",
    "painting, planting and finishing surfaces beyond what is stated",
]


def exclusions(facts: JobFacts, given: Given) -> list[str]:
    """Return what the price does not hold."""
    supplies = facts.supplies or Supplies()
    kinds = {point.kind for point in given.facts.points or ()}
    site = facts.site
    left_out = (
        (supplies.charger != "by-contractor", "the charger itself, which the customer brings"),
        (not supplies.energy_management, "energy management and its sensors"),
        (not supplies.meter_socket and "meter-socket" not in kinds, "a meter socket of its own"),
        (not supplies.submeter and "submeter" not in kinds, "a submeter"),
        (supplies.panel is None, "a new panel, and making room in the present one"),
        (not supplies.permit, "the permit and its inspection"),
        (not supplies.paperwork, "papers for rebates and utility"),
        (not supplies.load_calculation, "a written calculation of the load"),
        (site is None or site.travel is None, "travel"),
        (site is None or not site.wall_patches, "closing openings in walls"),
        (facts.tax is None, "taxes"),
        (
            any(_lies_under_a_building(given, index) for index in range(len(given.facts.run))),
            "opening floors and slabs above a run under a building",
        ),
    )
    found = [words for applies, words in left_out if applies]
    return [*found, *ALWAYS_EXCLUDED]


def _lies_under_a_building(given: Given, index: int) -> bool:
    underground = given.facts.run[index].underground
    return underground is not None and underground.under == "building"


def assumptions(job: Job, sources: Sources) -> list[ToVerify]:
    """Return what was taken for granted in quantities and prices."""
    found = [
        ToVerify(pointer, f"not stated, taken as {taken}", evidence)
        for pointer, taken, evidence in (*_of_the_order(job), *_of_the_circuit(job), *_along_the_run(job))
    ]
    if sources.stated_table is not None and sources.stated_table.condition_factors is None:
        at = "/labour_table/condition_factors"
        found.append(ToVerify(at, "not stated, taken as 1", "how long like work took on like sites"))
    return found


def _of_the_order(job: Job) -> Iterator[tuple[str, str, str]]:
    """Yield pointer, what was taken, and where it can be seen."""
    waste, practice = job.waste, "what was left over on like jobs"
    for name, stated, usual in (
        ("cable_percent", waste.cable_percent, f"{CABLE_PERCENT:g} %"),
        ("cable_ends", waste.cable_ends, f"{CABLE_ENDS_M:g} m"),
        ("raceway_percent", waste.raceway_percent, f"{RACEWAY_PERCENT:g} %"),
        ("fittings_percent", waste.fittings_percent, f"{FITTINGS_PERCENT:g} %"),
        ("consumables_percent", waste.consumables_percent, f"{CONSUMABLES_PERCENT:g} %"),
    ):
        if stated is None:
            yield f"{job.facts_at}/waste/{name}", f"{usual}, common practice", practice
    supplies = job.facts.supplies
    if supplies is None or supplies.charger is None:
        yield f"{job.facts_at}/supplies/charger", "by-customer", "the order"


def _of_the_circuit(job: Job) -> Iterator[tuple[str, str, str]]:
    facts, at = job.circuit.facts, job.circuit_at
    connection = facts.charger.connection
    if isinstance(connection, Receptacle):
        if facts.premises is None or facts.premises.charger_location is None:
            yield f"{at}/premises/charger_location", "indoors, for the receptacle's cover", "the site"
        if connection.listed_for_ev_charging is None:
            yield (
                f"{at}/charger/connection/listed_for_ev_charging",
                "not listed, for its price",
                "the receptacle",
            )
    for place, point in enumerate(job.points):
        if point.kind != "splice" and point.rating_a is None:
            yield f"{at}/points/{place}/rating_a", "that of the breaker, for its price", "the device"


def _along_the_run(job: Job) -> Iterator[tuple[str, str, str]]:
    """Yield what is not stated of a segment's site; where nothing is, the pointer is that of the list."""
    for index, segment in enumerate(job.design.segments):
        site = job.site_of(index)
        at = f"{job.facts_at}/site/segments" + (f"/{site[0]}" if site else "")
        suffix = "" if site else f", for segment {index}"
        if not job.is_buried(index) and (site is None or site[1].condition is None):
            yield at + ("/condition" if site else ""), "open" + suffix, "the site"
        if segment.wiring_method not in RACEWAYS:
            continue
        if site is None or site[1].elbows is None:
            usual = "2 elbows" if job.is_buried(index) and segment.wiring_method in RIGID else "no elbows"
            yield at + ("/elbows" if site else ""), usual + suffix, "the way that the raceway takes"
        if site is None or site[1].pull_points is None:
            yield (
                at + ("/pull_points" if site else ""),
                "none to pull through" + suffix,
                "the way of the raceway",
            )


def estimate_to_verify(judged: JudgedDesign, taken: TakenOff | None, sources: Sources) -> list[ToVerify]:
    """Return what the circuit leaves to verify, under its place in the request, and what was assumed beside it."""
    found = [
        ToVerify(CIRCUIT + item.pointer, item.stated, item.evidence)
        for item in circuit_to_verify(judged.circuit.given)
    ]
    return found if taken is None else [*found, *assumptions(taken.job, sources)]


def estimate_cautions(judged: JudgedDesign, sources: Sources) -> list[str]:
    """Return the cautions of an estimate, then those of its circuit."""
    of_circuit = circuit_cautions(judged.circuit.given, judged.circuit.sizes.grounding_material)
    return [*price_cautions(sources), *of_circuit]


def price_cautions(sources: Sources) -> list[str]:
    """Return what to bear in mind about prices."""
    found = [NOT_A_QUOTE]
    if sources.is_demo_book:
        found.append(DEMO_PRICES)
    if sources.is_demo_table:
        found.append(DEMO_RATE)
    return found


def estimate_not_examined(judged: JudgedDesign) -> list[str]:
    """Return what was not looked at."""
    return [*NOT_EXAMINED, *circuit_not_examined(judged.circuit.given)]
