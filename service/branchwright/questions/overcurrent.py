"""Overcurrent devices over an ampacity."""

from branchwright.codebook import EditionBook


def permitted_breaker_a(edition: EditionBook, ampacity_a: float) -> float:
    """Return the greatest breaker in A that protects an ampacity in A; 0 where none does."""
    rule_of_next_size = edition.provision("next-size-up")
    above = edition.standard_rating_at_least(ampacity_a)
    if (
        above is not None
        and rule_of_next_size.says("permitted")
        and above.number <= rule_of_next_size.number("up_to_a")
        and ampacity_a > 0
    ):
        return above.number
    return max((rating for rating in edition.standard_ratings if rating <= ampacity_a), default=0.0)
