"""The comparison of the guide on charging costs: its request, and the engine's answer to it."""

import json
import re
from functools import cache
from pathlib import Path
from typing import Any

from branchwright.checks.charging_cost.charging_comparison import (
    ChargingComparisonAnswer,
    ChargingComparisonRequest,
    compare_charging,
)

GUIDE = Path(__file__).parents[2] / "pages" / "guides" / "charging-costs.md"


@cache
def request() -> dict[str, Any]:
    """Return the guide's own request."""
    (text,) = re.findall(
        r'^```json title="charging\.json"\n(.*?)^```$', GUIDE.read_text("utf-8"), re.M | re.S
    )
    return dict(json.loads(text))


@cache
def answer() -> ChargingComparisonAnswer:
    """Return the engine's answer."""
    found = compare_charging(ChargingComparisonRequest.model_validate_json(json.dumps(request())))
    if not found.options:
        raise ValueError("Nothing was priced.")
    return found
