"""Steps of the conductors' ampacity: before and after correction, over the run, and under the breaker."""

from branchwright.calculations.ampacity import corrected_ampacity_a, rooftop_ambient_c, short_length_limit_ft
from branchwright.calculations.continuous_load import least_rating_a
from branchwright.checks.circuits.circuit import run_ampacity_a, segment_ampacity_a, terminal_ampacity_a
from branchwright.checks.circuits.segment_conditions import SegmentConditions
from branchwright.checks.circuits.working.ledger import Ledger
from branchwright.findings import Sourced, StepInput
from branchwright.quantities.conductor_sizes import ConductorSize
from branchwright.questions.ledger import stated


def least_ampacity(ledger: Ledger, load_a: StepInput) -> None:
    """Enter the least ampacity before correction."""
    provision = ledger.edition.provision("conductor-continuous-load")
    ledger.note(
        least_rating_a.step(
            "least-ampacity-before-correction",
            {"factor": provision.values["factor"], "load_a": load_a},
            provision.citation,
        )
    )


def terminal_ampacity(ledger: Ledger, column_c: StepInput) -> StepInput:
    """Enter the ampacity at the terminals' column, within the cap and print of any cable, and return it."""
    given = ledger.given
    size = ledger.circuit.ungrounded
    inputs = {"size": ledger.size("ungrounded", size), "material": ledger.material(), "column_c": column_c}
    expression = "lookup(ampacity, size, material, column_c)"
    caps: list[StepInput] = [cap for segment in given.segments if (cap := _cap(segment, size)) is not None]
    for segment in given.segments:
        printed = _start(ledger, segment) if segment.print_column is not None else None
        if printed is not None:
            caps.append(printed)
    if caps:
        inputs["cap_c"] = min(caps, key=lambda cap: float(cap.value))
        expression = f"min({expression}, lookup(ampacity, size, material, cap_c))"
    return ledger.work_out(
        "terminal-ampacity",
        "ampacity before correction, at the terminals' column and within any cable's cap",
        expression,
        inputs,
        terminal_ampacity_a(given, size),
        "A",
        ledger.edition.citation_of("ampacity"),
    )


def _cap(segment: SegmentConditions, size: ConductorSize) -> Sourced | None:
    """Return the temperature column that caps a size in a segment, from where the book prints it."""
    column = segment.cap_column_of(size)
    if column is None:
        return None
    if segment.insulated_cap is not None and column == segment.insulated_cap_column:
        return segment.insulated_cap
    return segment.cap


def _start(ledger: Ledger, segment: SegmentConditions) -> StepInput | None:
    """Return the temperature column that correction starts from: as marked on the cable, or by the book."""
    cable = segment.facts.cable
    if segment.method.marked_rating and cable and cable.conductor_temperature_rating_c:
        return stated(
            float(cable.conductor_temperature_rating_c),
            "degC",
            f"/run/{segment.index}/cable/conductor_temperature_rating_c",
        )
    return segment.method.start_c or ledger.edition.insulation_temperatures.get(
        (ledger.given.insulation, segment.location)
    )


def segment_ampacity(ledger: Ledger, segment: SegmentConditions) -> StepInput | None:
    """Enter the ampacity of one segment and return it; None where no printed factor reaches its ambient."""
    edition = ledger.edition
    material, size = ledger.given.material, ledger.circuit.ungrounded
    ambient = _ambient(ledger, segment)
    start = _start(ledger, segment)
    adjustment = _adjustment(ledger, segment)
    if segment.correction is None or start is None:
        return None
    at = f"segment-{segment.index}-"
    correction = ledger.work_out(
        at + "correction",
        "ambient correction factor",
        "lookup(ambient_correction, ambient_c, column_c)",
        {"ambient_c": ambient, "column_c": start},
        segment.correction_factor,
        "1",
        segment.correction.citation,
        segment.index,
    )
    corrected = ledger.add(
        corrected_ampacity_a.step(
            at + "corrected-ampacity",
            {
                "ampacity_a": edition.ampacities[size, material, segment.start_column],
                "correction": correction,
                "adjustment_percent": adjustment,
            },
            edition.provision("conductor-actual-load").citation,
            segment.index,
        )
    )
    cap = _cap(segment, size)
    if cap is None:
        return corrected
    return ledger.work_out(
        at + "ampacity",
        "ampacity within the cable's cap",
        "min(corrected_a, lookup(ampacity, size, material, cap_c))",
        {
            "corrected_a": corrected,
            "size": ledger.size("ungrounded", size),
            "material": ledger.material(),
            "cap_c": cap,
        },
        segment_ampacity_a(ledger.given, segment, size),
        "A",
        segment.method.insulated_citation
        if cap is segment.insulated_cap
        else segment.method.ampacity_citation,
        segment.index,
    )


def _ambient(ledger: Ledger, segment: SegmentConditions) -> StepInput:
    """Return the segment's ambient temperature, entering the rooftop adder where it applies."""
    ambient: StepInput = (
        ledger.edition.provision("base-ambient").values["ambient_c"]
        if segment.facts.ambient_c is None
        else stated(segment.base_ambient_c, "degC", f"/run/{segment.index}/ambient_c")
    )
    if segment.adder is not None:
        ambient = ledger.add(
            rooftop_ambient_c.step(
                f"segment-{segment.index}-rooftop-ambient",
                {"ambient_c": ambient, "adder_c": segment.adder},
                segment.adder.citation,
                segment.index,
            )
        )
    ledger.ambients[segment.index] = ambient
    return ambient


def _adjustment(ledger: Ledger, segment: SegmentConditions) -> StepInput:
    """Return the adjustment in percent, entering its look-up where other conductors make it one."""
    adjustment: StepInput = segment.adjustment
    if segment.others and segment.adjustment_percent != 100.0:
        own = segment.conductor_count - segment.others
        pointer = f"/run/{segment.index}/other_current_carrying_conductors"
        expression, stands_for = f"lookup(conductor_count_adjustment, {own} + others)", float(segment.others)
        if segment.facts.other_current_carrying_conductors is None:
            pointer = f"/run/{segment.index}/bundled_cables"
            expression = f"lookup(conductor_count_adjustment, {own} + 2 * (others - 1))"
            stands_for = float(segment.facts.bundled_cables or 1)
        adjustment = ledger.work_out(
            f"segment-{segment.index}-adjustment",
            "adjustment for the number of current-carrying conductors",
            expression,
            {"others": stated(stands_for, "count", pointer)},
            segment.adjustment_percent,
            "%",
            segment.adjustment.citation,
            segment.index,
        )
    ledger.adjustments[segment.index] = adjustment
    return adjustment


def run_ampacity(ledger: Ledger, ampacities: dict[int, StepInput]) -> StepInput:
    """Enter the ampacity that governs the run, short portions of lower ampacity apart, and return it."""
    governing = run_ampacity_a(ledger.given, ledger.circuit.ungrounded)
    kept = {index: item for index, item in ampacities.items() if float(item.value) >= governing}
    if len(kept) < len(ampacities):
        _short_length(ledger, kept)
    inputs = {f"segment_{index}_a": item for index, item in kept.items()}
    return ledger.work_out(
        "run-ampacity",
        "ampacity of the run",
        f"min({', '.join(inputs)})" if len(inputs) > 1 else next(iter(inputs)),
        inputs,
        governing,
        "A",
        ledger.edition.provision("conductor-actual-load").citation,
    )


def _short_length(ledger: Ledger, kept: dict[int, StepInput]) -> None:
    """Show that the segments of lower ampacity are short enough to be disregarded."""
    provision = ledger.edition.provision("short-length-exception")
    sums: dict[str, StepInput] = {}
    for name in ("higher", "lower"):
        inputs = {
            f"segment_{segment.index}_ft": ledger.length(segment)
            for segment in ledger.given.segments
            if (segment.index in kept) == (name == "higher")
        }
        sums[name] = ledger.work_out(
            f"length-at-{name}-ampacity",
            f"length at the {name} ampacity",
            " + ".join(inputs),
            inputs,
            sum(float(item.value) for item in inputs.values()),
            "ft",
            provision.citation,
        )
    ledger.note(
        short_length_limit_ft.step(
            "short-length-limit",
            {
                "longest_ft": provision.values["longest_ft"],
                "greatest_percent": provision.values["greatest_percent"],
                "high_ft": sums["higher"],
            },
            provision.citation,
        )
    )


def protection(ledger: Ledger, run_a: StepInput, terminal_a: StepInput) -> None:
    """Enter the ampacity that the breaker protects, and the greatest standard rating that does."""
    edition = ledger.edition
    provision = edition.provision("next-size-up")
    least = min(float(run_a.value), float(terminal_a.value))
    protected = ledger.work_out(
        "protected-ampacity",
        "ampacity that the breaker protects",
        "min(run_a, terminal_a)",
        {"run_a": run_a, "terminal_a": terminal_a},
        least,
        "A",
        provision.citation,
    )
    permitted = edition.standard_rating_at_least(least)
    if permitted is not None and permitted.number <= provision.number("up_to_a") and least > 0:
        ledger.work_out(
            "permitted-breaker",
            "greatest standard rating that protects this ampacity",
            "lookup(standard_ratings, ampacity_a)",
            {"ampacity_a": protected},
            permitted.number,
            "A",
            provision.citation,
        )
