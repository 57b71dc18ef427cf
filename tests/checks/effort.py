"""How many examples the property tests try, and whether the same ones every time."""

import os

from hypothesis import HealthCheck, settings

MORE = int(os.environ.get("BRANCHWRIGHT_RANDOM_EXAMPLES", "0"))
"""Set to 10 to try ten times as many examples, new ones on every run; a failure prints how to repeat it."""


def examples(count: int) -> settings:
    """Return settings for so many examples; without a deadline, since two test processes share two cores."""
    return settings(
        max_examples=count * max(MORE, 1),
        derandomize=not MORE,
        database=None,
        deadline=None,
        print_blob=bool(MORE),
        suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large, HealthCheck.filter_too_much],
    )
