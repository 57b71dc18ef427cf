"""Steps of a segment's raceway: its fill, and the temperature of the conductors in it."""

from branchwright.calculations.conductor_temperature import operating_temperature_c
from branchwright.calculations.raceway_fill import circle_area_in2, fill_percent, same_size_count
from branchwright.checks.circuits.circuit import neutral_count
from branchwright.checks.circuits.rules.raceway_fill import fills, raceway_of
from branchwright.checks.circuits.rules.raceway_temperature import REFERENCE_COLUMN
from branchwright.checks.circuits.segment_conditions import SegmentConditions
from branchwright.checks.circuits.working.ledger import Ledger
from branchwright.findings import StepInput
from branchwright.quantities.lengths import UNITS_PER_FOOT, inches
from branchwright.questions.ledger import stated


def raceway_fill(ledger: Ledger, segment: SegmentConditions) -> None:
    """Enter the area of the conductors and the fill, where a raceway and its content are known."""
    circuit, given, edition = ledger.circuit, ledger.given, ledger.edition
    sizes = circuit.sizes
    filled = fills(circuit).get(segment.index)
    if filled is None or sizes.grounding is None:
        return
    at = f"segment-{segment.index}-"
    areas = edition.conductor_areas
    inputs: dict[str, StepInput]
    if segment.method.is_raceway:
        inputs = {
            "ungrounded_in2": areas[given.insulation, circuit.ungrounded],
            "grounding_in2": areas[given.insulation, sizes.grounding],
        }
        expression = f"{given.ungrounded_count} * ungrounded_in2 + grounding_in2"
        if sizes.neutral or neutral_count(given):
            inputs["neutral_in2"] = areas[given.insulation, sizes.neutral or circuit.ungrounded]
            expression = f"{given.ungrounded_count} * ungrounded_in2 + neutral_in2 + grounding_in2"
    else:
        inputs = {"cable_in2": _cable_area(ledger, segment)}
        expression = "cable_in2"
    others = segment.facts.other_conductors_area_in2
    if others:
        inputs["other_in2"] = stated(others, "in2", f"/run/{segment.index}/other_conductors_area_in2")
        expression += " + other_in2"
    area = ledger.work_out(
        at + "conductors-area",
        "area of the conductors, the grounding conductor included",
        expression,
        inputs,
        filled.area_in2,
        "in2",
        edition.citation_of("conductor_areas"),
        segment.index,
    )
    raceway = raceway_of(given, segment).areas[filled.trade_size]
    ledger.note(
        fill_percent.step(
            at + "fill", {"area_in2": area, "raceway_in2": raceway}, filled.limit.citation, segment.index
        )
    )
    if filled.holds and filled.percent > filled.limit.number:
        ledger.note(
            same_size_count.step(
                at + "same-size-count",
                {
                    "limit_percent": filled.limit,
                    "raceway_in2": raceway,
                    "conductor_in2": areas[given.insulation, circuit.ungrounded],
                },
                filled.limit.citation,
                segment.index,
            )
        )


def _cable_area(ledger: Ledger, segment: SegmentConditions) -> StepInput:
    """Enter the area of a cable in its sleeve, its diameter turned into inches first."""
    cable = segment.facts.cable
    diameter = cable.outside_diameter if cable else None
    if diameter is None:
        # A fill was found, so the diameter is stated.
        raise ValueError("A cable without a diameter has no area.")
    pointer = f"/run/{segment.index}/cable/outside_diameter/value"
    found = stated(diameter.value, diameter.unit, pointer)
    at = f"segment-{segment.index}-"
    if diameter.unit != "in":
        found = ledger.work_out(
            at + "cable-diameter",
            "outside diameter in inches",
            f"diameter / {UNITS_PER_FOOT[diameter.unit]:g} * 12",
            {"diameter": found},
            inches(diameter.value, diameter.unit),
            "in",
            None,
            segment.index,
        )
    return ledger.add(
        circle_area_in2.step(
            at + "cable-area",
            {"diameter_in": found},
            ledger.edition.provision("nipple").citation,
            segment.index,
        )
    )


def operating_temperature(ledger: Ledger, segment: SegmentConditions, load_a: StepInput) -> None:
    """Enter the conductor's operating temperature."""
    edition = ledger.edition
    provision = edition.provision("operating-temperature")
    ledger.note(
        operating_temperature_c.step(
            f"segment-{segment.index}-operating-temperature",
            {
                "ambient_c": ledger.ambients[segment.index],
                "rating_c": provision.values["reference_c"],
                "base_c": edition.provision("base-ambient").values["ambient_c"],
                "load_a": load_a,
                "ampacity_a": edition.ampacities[
                    ledger.circuit.ungrounded, ledger.given.material, REFERENCE_COLUMN
                ],
                "adjustment_percent": ledger.adjustments[segment.index],
            },
            provision.citation,
            segment.index,
        )
    )
