"""Asks for comparisons as a caller does, and for the designs that they are held against."""

import json
from typing import Any

from hypothesis import strategies as st
from tests.checks.circuits import Json, designed
from tests.checks.strategies import SIZES, TRADE_SIZES, any_designs, usual_designs

from branchwright.jobs.current_comparison import CurrentComparisonRequest, compare

USUAL_CURRENTS_A = [6, 8, 10, 12, 16, 20, 24, 28, 32, 36, 40, 48, 56, 64, 72, 80]
EDITIONS = ("nec-2017", "nec-2020", "nec-2023", "nec-2026")

compared_currents_a = st.one_of(
    st.none(),
    st.lists(
        st.one_of(st.sampled_from(USUAL_CURRENTS_A), st.floats(6, 80).map(lambda value: round(value, 1))),
        min_size=1,
        max_size=8,
    ),
)


def compared(request: Json) -> Json:
    """Return the answer to a comparison request; the request is parsed from JSON as the service does it."""
    answer = compare(CurrentComparisonRequest.model_validate_json(json.dumps(request)))
    return dict(json.loads(answer.model_dump_json(by_alias=True)))


def design_request(request: Json, current_a: float) -> Json:
    """The design request of one row: the same facts with the charging current stated."""
    shared = {name: value for name, value in request.items() if name not in ("currents_a", "night_h")}
    return {**shared, "charger": {**request["charger"], "charging_current_a": current_a}}


def design_at(request: Json, current_a: float) -> Json:
    """The answer to the design request of one row."""
    return designed(design_request(request, current_a))


def served(answer: Json) -> list[Json]:
    """The rows that have a circuit, lowest current first."""
    return [row for row in answer["rows"] if row["breaker_rating_a"] is not None]


def size_rank(size: str) -> int:
    """The place of a conductor size, smallest first."""
    return SIZES.index(size)


def trade_size_rank(trade_size: str) -> int:
    """The place of a trade size, smallest first."""
    return TRADE_SIZES.index(trade_size)


@st.composite
def comparisons(draw: st.DrawFn, *, usual: bool) -> Json:
    """Comparison requests made of design requests: usual ones state every fact, any ones fit the schema."""
    design: dict[str, Any] = draw(usual_designs() if usual else any_designs())
    charger = {name: value for name, value in design["charger"].items() if name != "charging_current_a"}
    if usual and draw(st.booleans()):
        # Each current is then a charger of its own, instead of a setting.
        del charger["rated_current_a"]
    if draw(st.booleans()):
        charger["power_factor"] = draw(st.sampled_from((1, 0.99, 0.9)))
    supply = {**design["supply"], "phases": draw(st.sampled_from((1, 3)))}
    request = {
        **design,
        # On a split-phase system three phases are a failing finding.
        "supply": supply if supply["system"] == "wye-208y-120" or not usual else design["supply"],
        "edition": draw(st.sampled_from(EDITIONS)),
        "charger": charger,
        "currents_a": draw(compared_currents_a),
    }
    night_h = draw(st.one_of(st.none(), st.sampled_from((0.5, 8, 24)), st.floats(0.01, 24)))
    return request if night_h is None else {**request, "night_h": night_h}
