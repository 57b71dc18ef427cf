"""Devices between the segments of the run."""

from branchwright.checks.circuits.circuit import Circuit
from branchwright.checks.circuits.rules.rule import rule
from branchwright.findings import Finding, Provided, Required


@rule("points-on-run", subject="points of the run", concept="listing")
def points_on_run(circuit: Circuit) -> Finding:
    """Does every point follow a segment that the run has?

    Applies: where points are stated.
    Rests on: the request's own consistency.
    Missing facts: none.
    """
    facts = circuit.facts
    points = facts.points or ()
    if not points:
        return points_on_run.not_applicable("The run has no points between its segments.")
    last = len(facts.run) - 1
    for index, point in enumerate(points):
        if point.after_segment > last:
            return points_on_run.finding(
                "fail",
                f"Point {index} ({point.kind}) follows segment {point.after_segment}, and the last one is {last}.",
                citation=None,
                pointer=f"/points/{index}/after_segment",
                required=Required(float(last), "1", "at-most"),
                provided=Provided(float(point.after_segment), "1"),
            )
    return points_on_run.finding(
        "pass", "Every point follows a segment of the run.", citation=None, pointer="/points"
    )


@rule("point-rating", subject="points of the run", concept="point-rating", needs=("breaker",))
def point_rating(circuit: Circuit) -> Finding:
    """Is every disconnect, meter socket and submeter rated at least as high as the breaker?

    Applies: to points other than splices.
    Rests on: equipment is used within its rating; the breaker is what limits the current through it.
    Missing facts: undetermined where a rating is not stated.
    """
    edition = circuit.given.edition
    cited = point_rating.cited(edition)
    rated = [
        (index, point) for index, point in enumerate(circuit.facts.points or ()) if point.kind != "splice"
    ]
    if not rated:
        return point_rating.not_applicable("The run has no device between its segments.", cited)
    known = [(index, point, point.rating_a) for index, point in rated if point.rating_a is not None]
    unknown = next(((index, point) for index, point in rated if point.rating_a is None), None)
    weakest = min(known, key=lambda item: item[2], default=None)
    if weakest is None or (unknown is not None and weakest[2] >= circuit.breaker_a):
        index, point = unknown or rated[0]
        return point_rating.undetermined(
            f"/points/{index}/rating_a", f"The rating of the {point.kind} is not stated.", cited
        )
    index, point, rating = weakest
    return point_rating.at_least(
        rating,
        circuit.breaker_a,
        "A",
        f"The {point.kind} is rated {rating:g} A; the breaker has {circuit.breaker_a:g} A.",
        cited,
        f"/points/{index}/rating_a",
    )
