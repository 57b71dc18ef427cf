"""The questions whose rules the pages show, in the order of the guides."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Protocol

from branchwright.checks.charging_cost.charging_comparison.rules import RULES as CHARGING_COMPARISON
from branchwright.checks.charging_cost.tariffs.rules import RULES as TARIFFS
from branchwright.checks.circuits.rules import RULES as CIRCUITS
from branchwright.checks.service_capacity.capacity_review.rules import RULES as CAPACITY_REVIEW
from branchwright.checks.service_capacity.dwelling_load.rules import RULES as DWELLING_LOAD
from branchwright.checks.service_capacity.interval_data.rules import RULES as INTERVAL_DATA
from branchwright.checks.service_capacity.managed_charging.rules import RULES as MANAGED_CHARGING
from branchwright.codebook import EditionBook
from branchwright.findings import Citation
from branchwright.findings.finding import Force
from branchwright.jobs.installation import RULES as INSTALLATION


class Rule(Protocol):
    """What the pages show of a rule, whatever it judges."""

    name: str
    subject: str
    concept: str
    force: Force
    prose: str
    consults: frozenset[str]
    function: object

    def cited(self, edition: EditionBook) -> Citation:
        """Return the citation of the provision or table that the rule rests on."""
        ...


@dataclass(frozen=True)
class Question:
    """A question with its rules in the order in which they are asked.

    `facts_hang_on` are the interpretations that decide on the facts before any rule is asked.
    """

    name: str
    title: str
    guides: tuple[str, ...]
    rules: Sequence[Rule]
    facts_hang_on: tuple[str, ...] = ()


QUESTIONS: tuple[Question, ...] = (
    Question(
        "circuits",
        "Circuits",
        ("designs", "reviews"),
        CIRCUITS,
        ("grounding-growth", "rooftop-clearance", "setting-as-rating"),
    ),
    Question(
        "dwelling-load",
        "Load calculations",
        ("load-calculations",),
        DWELLING_LOAD,
        (
            "charger-in-optional-method",
            "existing-heating-and-cooling",
            "added-heating-and-cooling",
            "omitted-motor",
            "setting-as-rating",
        ),
    ),
    Question("interval-data", "Interval data", ("interval-data",), INTERVAL_DATA),
    Question(
        "capacity-review",
        "Capacity reviews",
        ("capacity-reviews",),
        CAPACITY_REVIEW,
        (
            "charger-on-service",
            "measured-demand-interval",
            "charger-in-optional-method",
            "existing-heating-and-cooling",
            "added-heating-and-cooling",
            "omitted-motor",
            "setting-as-rating",
        ),
    ),
    Question("managed-charging", "Managed charging", ("managed-charging",), MANAGED_CHARGING),
    Question("tariffs", "Tariffs", ("tariffs",), TARIFFS),
    Question("charging-comparison", "Charging costs", ("charging-costs",), CHARGING_COMPARISON),
    Question("installation", "Installation estimates", ("installation-estimates",), INSTALLATION),
)

RULES: tuple[Rule, ...] = tuple(rule for question in QUESTIONS for rule in question.rules)


def question_of(rule: Rule) -> Question:
    """Return the question that a rule belongs to."""
    return next(question for question in QUESTIONS if rule in question.rules)
