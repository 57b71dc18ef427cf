"""How many examples the property tests try, and whether the same ones every time."""

import os

from hypothesis import HealthCheck, settings

RANDOM = os.environ.get("BRANCHWRIGHT_RANDOM_EXAMPLES") == "1"
"""Set to try new examples instead of the same ones; a failure then prints how to repeat it."""


def examples(count: int) -> settings:
    """Return settings for so many examples; without a deadline, since two test processes share two cores."""
    return settings(
        max_examples=count * (20 if RANDOM else 1),
        derandomize=not RANDOM,
        database=None,
        deadline=None,
        print_blob=RANDOM,
        suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large, HealthCheck.large_base_example],
    )
