"""Steps of the load, the breaker, and the temperature column of the terminals."""

from branchwright.calculations.continuous_load import least_rating_a
from branchwright.checks.circuits.given import matched_receptacle
from branchwright.checks.circuits.working.ledger import Ledger
from branchwright.findings import StepInput
from branchwright.questions.ledger import stated


def load(ledger: Ledger) -> StepInput:
    """Enter the current that counts as the load and return it."""
    given = ledger.given
    return ledger.work_out(
        "load",
        "current that counts as the load",
        "current_a",
        {"current_a": stated(given.load_a, "A", given.load_pointer)},
        given.load_a,
        "A",
        given.edition.provision("current-setting").citation,
    )


def breaker(ledger: Ledger, load_a: StepInput) -> StepInput | None:
    """Enter the least breaker, and return the rating that is designed or stated; None where there is none."""
    given, edition = ledger.given, ledger.edition
    provision = edition.provision("continuous-load")
    least = ledger.add(
        least_rating_a.step(
            "least-breaker-current",
            {"factor": provision.values["factor"], "load_a": load_a},
            provision.citation,
        )
    )
    if given.breaker_a is None:
        return None
    if ledger.circuit.is_review:
        return stated(given.breaker_a, "A", ledger.circuit.pointer("breaker"))
    inputs: dict[str, StepInput] = {
        "least_a": least,
        "floor_a": edition.provision("branch-circuit-rating").values["least_a"],
    }
    matched = matched_receptacle(edition, given.receptacle)
    if matched is not None:
        inputs["receptacle_a"] = matched
    return ledger.work_out(
        "breaker-rating",
        "least standard rating of the breaker",
        f"lookup(standard_ratings, max({', '.join(inputs)}))",
        inputs,
        given.breaker_a,
        "A",
        edition.citation_of("standard_ratings"),
    )


def termination_column(ledger: Ledger) -> StepInput:
    """Enter the temperature column of the lowest-rated terminal and return it."""
    given = ledger.given
    provision = ledger.edition.provision("termination-temperature")
    small = given.breaker_a is None or given.breaker_a <= provision.number("circuit_up_to_a")
    unmarked = provision.values["unmarked_up_to_c" if small else "unmarked_above_c"]
    if given.assumption == "best":
        unmarked = provision.values["greatest_c"]
    inputs: dict[str, StepInput] = {"greatest_c": provision.values["greatest_c"]}
    for place in given.terminals:
        rating = place.marked.temperature_rating_c if place.marked else None
        inputs[place.at.replace("/", "_") + "_c"] = (
            unmarked
            if rating is None
            else stated(float(rating), "degC", place.pointer + "/temperature_rating_c")
        )
    return ledger.work_out(
        "termination-column",
        "temperature column of the lowest-rated terminal",
        f"min({', '.join(inputs)})",
        inputs,
        float(given.column),
        "degC",
        provision.citation,
    )
