"""The ampacity of the service conductors."""

from branchwright.calculations.ampacity import corrected_ampacity_a
from branchwright.checks.service_capacity.capacity_review.facts import ServiceConductors
from branchwright.checks.service_capacity.capacity_review.spans import Span, known
from branchwright.codebook import EditionBook

UNPRINTED_C = 75
"""Temperature rating of conductors whose print is not stated: the lowest that service conductors have."""


def conductor_ampacity_a(
    conductors: ServiceConductors | None, rating_a: float, edition: EditionBook
) -> Span | None:
    """Return the ampacity in A: as stated, or of the size at terminals and after correction, whichever is less.

    None where neither it nor size and material are stated. Unmarked terminals of a service up to 100 A count as
    60 degC at the worst.
    """
    if conductors is None:
        return None
    if conductors.ampacity_a is not None:
        return known(conductors.ampacity_a)
    if conductors.size is None or conductors.material is None:
        return None
    corrected = corrected_a(conductors, edition)
    columns = terminal_columns(conductors, rating_a, edition)
    at_worst, at_best = (
        min(corrected, edition.ampacities_a.get((conductors.size, conductors.material, column), 0.0))
        for column in columns
    )
    return Span(at_worst, at_worst, at_best)


def corrected_a(conductors: ServiceConductors, edition: EditionBook) -> float:
    """Return the ampacity in A after correction and adjustment, from the column of the conductors' print."""
    column = conductors.conductor_temperature_rating_c or UNPRINTED_C
    ambient = conductors.ambient_c
    if ambient is None:
        ambient = edition.provision("base-ambient").number("ambient_c")
    correction = edition.ambient_correction(ambient, column)
    adjustment = edition.count_adjustment(conductors.current_carrying_conductors or 1).number
    uncorrected = edition.ampacities_a.get((conductors.size or "", conductors.material or "", column), 0.0)
    return corrected_ampacity_a.value(
        uncorrected, 0.0 if correction is None else correction.number, adjustment
    )


def terminal_columns(conductors: ServiceConductors, rating_a: float, edition: EditionBook) -> tuple[int, int]:
    """Return the temperature column of the terminals within the conductors' print, at its worst and at its best."""
    rule = edition.provision("termination-temperature")
    printed = conductors.conductor_temperature_rating_c or UNPRINTED_C
    greatest = int(rule.number("greatest_c"))
    marked = conductors.terminal_temperature_rating_c
    if marked is not None:
        column = min(marked, greatest, printed)
        return column, column
    unmarked = int(
        rule.number("unmarked_up_to_c" if rating_a <= rule.number("circuit_up_to_a") else "unmarked_above_c")
    )
    return min(unmarked, printed), min(greatest, printed)


def is_corrected(conductors: ServiceConductors, edition: EditionBook) -> bool:
    """Return whether ambient correction or count adjustment changes the ampacity."""
    base = edition.provision("base-ambient").number("ambient_c")
    return (conductors.ambient_c is not None and conductors.ambient_c != base) or edition.count_adjustment(
        conductors.current_carrying_conductors or 1
    ).number != edition.count_adjustment(1).number
