"""Single changes that may mend a failing circuit, nearest first, by the rules that they may help.

No change ever removes protection or puts a larger breaker on conductors that are there.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any, TypeAlias

from branchwright.checks.circuits.circuit import Circuit, voltage_drop
from branchwright.checks.circuits.facts import (
    CircuitFacts,
    Depth,
    Hardwired,
    TorqueRecord,
)
from branchwright.checks.circuits.rules.disconnecting_means import SOUND_DISCONNECT
from branchwright.checks.circuits.rules.locations import is_above_made
from branchwright.codebook.editions import Material
from branchwright.findings import Finding
from branchwright.findings.citations import Value
from branchwright.quantities.conductor_sizes import SIZES, sizes_above
from branchwright.quantities.lengths import LengthUnit
from branchwright.quantities.trade_sizes import TRADE_SIZE_RANK, TRADE_SIZES
from branchwright.questions.changes import stated

CHARGING_CURRENTS_A = (80.0, 72.0, 64.0, 56.0, 48.0, 40.0, 32.0, 24.0, 20.0, 16.0, 12.0, 8.0, 6.0)
"""Settings that are tried; 6 A is the least that SAE J1772 signals, the rest common practice, no source."""


@dataclass(slots=True)
class Change:
    """One change: the field, the value to put there, how it reads, and what goes with it unasked."""

    pointer: str
    value: Any
    proposed: Value
    message: str
    together: tuple[tuple[str, Any], ...] = ()


Candidates: TypeAlias = Callable[[CircuitFacts, Circuit, Finding], Iterator[Change]]


def _label(request: CircuitFacts, circuit: Circuit, finding: Finding) -> Iterator[Change]:
    yield Change("/installed/setting_label", True, "true", "Put the adjusted current on the charger's label.")


def _protection(request: CircuitFacts, circuit: Circuit, finding: Finding) -> Iterator[Change]:
    if request.charger.markings and request.charger.markings.forbids_gfci_breaker:
        return
    yield Change(
        "/installed/ground_fault_protection",
        "breaker",
        "breaker",
        "Protect the outlet by a ground-fault breaker.",
    )


def _disconnect(request: CircuitFacts, circuit: Circuit, finding: Finding) -> Iterator[Change]:
    yield Change(
        "/installed/disconnect",
        SOUND_DISCONNECT,
        "present, readily accessible, lockable open",
        "Install a readily accessible disconnecting means that locks open.",
    )


def _shutoff(request: CircuitFacts, circuit: Circuit, finding: Finding) -> Iterator[Change]:
    yield Change(
        "/installed/emergency_shutoff", True, "true", "Install an emergency shutoff for the chargers."
    )


def _single_phase(request: CircuitFacts, circuit: Circuit, finding: Finding) -> Iterator[Change]:
    yield Change("/supply/phases", 1, 1.0, "Connect the charger to one phase.")


def _deeper(request: CircuitFacts, circuit: Circuit, finding: Finding) -> Iterator[Change]:
    pointer = finding.pointer or ""
    if pointer.endswith("/cover") and finding.required is not None:
        least = finding.required.value
        if isinstance(least, float):
            unit: LengthUnit = "mm" if finding.required.unit == "mm" else "in"
            yield Change(pointer, Depth(value=least, unit=unit), least, f"Bury it {least:g} {unit} deep.")


def _listed_receptacle(request: CircuitFacts, circuit: Circuit, finding: Finding) -> Iterator[Change]:
    yield Change(
        "/charger/connection/listed_for_ev_charging", True, "true", "Use a receptacle listed for charging."
    )


def _torque(request: CircuitFacts, circuit: Circuit, finding: Finding) -> Iterator[Change]:
    records = circuit.sizes.torque_records or ()
    marked = {place.at: place.marked.torque for place in circuit.given.terminals if place.marked}
    for index, record in enumerate(records):
        torque = marked.get(record.at)
        if torque is not None and finding.pointer == f"/installed/torque_records/{index}/torque":
            yield Change(
                f"/installed/torque_records/{index}",
                TorqueRecord(at=record.at, torque=torque),
                f"{torque.value:g} {torque.unit}",
                f"Tighten the terminals at {record.at} to the marked {torque.value:g} {torque.unit} and record it.",
            )


def _smaller_breaker(request: CircuitFacts, circuit: Circuit, finding: Finding) -> Iterator[Change]:
    if circuit.sizes.breaker_a is None:
        return
    for rating in reversed(circuit.given.edition.standard_ratings):
        if rating < circuit.sizes.breaker_a:
            yield Change(
                "/installed/breaker_rating_a", rating, rating, f"Replace the breaker by one of {rating:g} A."
            )


def _lower_setting(request: CircuitFacts, circuit: Circuit, finding: Finding) -> Iterator[Change]:
    charger = request.charger
    # Lowering the setting does not lower the nameplate: where none is stated, the old setting is it. A setting
    # counts only behind restricted access and on the label, so these belong to the change.
    together: list[tuple[str, Any]] = [
        ("/charger/rated_current_a", charger.rated_current_a or charger.charging_current_a),
        ("/charger/setting_access", "restricted"),
    ]
    if circuit.is_review:
        together.append(("/installed/setting_label", True))
    for setting in CHARGING_CURRENTS_A:
        if setting < charger.charging_current_a:
            yield Change(
                "/charger/charging_current_a",
                setting,
                setting,
                f"Set the charger to {setting:g} A, restrict access to the setting, and adjust the label.",
                tuple(together),
            )


def _restricted_access(request: CircuitFacts, circuit: Circuit, finding: Finding) -> Iterator[Change]:
    charger = request.charger
    setting, rated = charger.charging_current_a, charger.rated_current_a
    if rated is not None and setting < rated and charger.setting_access != "restricted":
        yield Change(
            "/charger/setting_access",
            "restricted",
            "restricted",
            f"Restrict access to the setting of {setting:g} A, and put it on the label.",
            (("/installed/setting_label", True),) if circuit.is_review else (),
        )


def _listed_cable(request: CircuitFacts, circuit: Circuit, finding: Finding) -> Iterator[Change]:
    pointer = f"/run/{finding.segment}/cable/listed_for_wet"
    if finding.segment is not None and stated(request, pointer) is False:
        yield Change(pointer, True, "true", "Use cable that is listed for wet locations.")


def _less_charging(request: CircuitFacts, circuit: Circuit, finding: Finding) -> Iterator[Change]:
    """For a design: a smaller charger where no nameplate is stated, else a lower setting."""
    charger = request.charger
    if charger.rated_current_a is not None:
        yield from _lower_setting(request, circuit, finding)
        return
    for current in CHARGING_CURRENTS_A:
        if current < charger.charging_current_a:
            message = f"Choose a charger of {current:g} A."
            yield Change("/charger/charging_current_a", current, current, message)


def _setting_to_rating(request: CircuitFacts, circuit: Circuit, finding: Finding) -> Iterator[Change]:
    rated = request.charger.rated_current_a
    if rated is not None:
        yield Change(
            "/charger/charging_current_a", rated, rated, f"Set the charger to its rating of {rated:g} A."
        )


def _larger_grounding(request: CircuitFacts, circuit: Circuit, finding: Finding) -> Iterator[Change]:
    pointer = finding.pointer or ""
    size = stated(request, pointer) if pointer.endswith("grounding_size") else None
    least = finding.required.value if finding.required is not None else None
    if size is not None and isinstance(least, str):
        # The least that is asked for depends on nothing that this change touches: no larger one does more.
        yield Change(pointer, least, least, f"Replace the grounding conductor by {least}.")


def _larger_raceway(request: CircuitFacts, circuit: Circuit, finding: Finding) -> Iterator[Change]:
    pointer = f"/run/{finding.segment}/raceway_trade_size"
    trade_size = None if finding.segment is None else stated(request, pointer)
    if trade_size is not None:
        for larger in TRADE_SIZES[TRADE_SIZE_RANK[trade_size] + 1 :]:
            yield Change(
                pointer,
                larger,
                larger,
                f"Use trade size {larger} for the raceway of segment {finding.segment}.",
            )


def _larger_conductors(request: CircuitFacts, circuit: Circuit, finding: Finding) -> Iterator[Change]:
    if circuit.sizes.ungrounded is not None:
        for larger in sizes_above(circuit.sizes.ungrounded):
            yield Change(
                "/installed/ungrounded_size",
                larger,
                larger,
                f"Replace the ungrounded conductors by {larger}.",
            )


def _smaller_conductors(request: CircuitFacts, circuit: Circuit, finding: Finding) -> Iterator[Change]:
    for size in reversed(SIZES):
        if circuit.sizes.ungrounded is not None and size not in (
            circuit.sizes.ungrounded,
            *sizes_above(circuit.sizes.ungrounded),
        ):
            yield Change(
                "/installed/ungrounded_size", size, size, f"Replace the ungrounded conductors by {size}."
            )


def _larger_neutral(request: CircuitFacts, circuit: Circuit, finding: Finding) -> Iterator[Change]:
    pointer = finding.pointer or ""
    size = stated(request, pointer) if pointer.endswith("neutral_size") else None
    if size is not None:
        for larger in sizes_above(size):
            yield Change(pointer, larger, larger, f"Replace the neutral by {larger}.")


def _insulation(request: CircuitFacts, circuit: Circuit, finding: Finding) -> Iterator[Change]:
    for insulation in ("THWN-2", "XHHW-2"):
        yield Change(
            "/conductors/insulation", insulation, insulation, f"Use conductors with {insulation} insulation."
        )


def _marked_raceway(request: CircuitFacts, circuit: Circuit, finding: Finding) -> Iterator[Change]:
    if finding.segment is None:
        return
    for temperature in (75.0, 80.0, 90.0):
        yield Change(
            f"/run/{finding.segment}/raceway_temperature_rating_c",
            temperature,
            temperature,
            f"Use a raceway marked for {temperature:g} degC in segment {finding.segment}.",
        )


def _other_method(request: CircuitFacts, circuit: Circuit, finding: Finding) -> Iterator[Change]:
    segment = finding.segment
    if segment is None:
        return
    conditions = circuit.given.segments[segment]
    size = circuit.sizes.ungrounded
    for name, method in circuit.given.edition.methods.items():
        buried = request.run[segment].underground is not None
        if name == request.run[segment].wiring_method or method.permitted[conditions.location] == "no":
            continue
        fits = method.is_raceway or size is None or not is_above_made(method, circuit.given.material, size)
        if fits and (not buried or method.underground != "no"):
            yield Change(f"/run/{segment}/wiring_method", name, name, f"Run segment {segment} in {name}.")


def _copper(request: CircuitFacts, circuit: Circuit, finding: Finding) -> Iterator[Change]:
    copper: Material = "copper"
    if request.conductors.material != copper:
        yield Change("/conductors/material", copper, copper, "Use copper conductors.")


def _looser_target(request: CircuitFacts, circuit: Circuit, finding: Finding) -> Iterator[Change]:
    size = circuit.sizes.ungrounded
    drop = voltage_drop(circuit.given, size) if size is not None else None
    if drop is not None and drop[1] < 100:
        reachable = round(drop[1] + 0.05, 1)
        yield Change(
            "/targets/voltage_drop_percent",
            reachable,
            reachable,
            f"Ask for a voltage drop of {reachable:g} percent, which {size} keeps.",
        )


def _hardwired(request: CircuitFacts, circuit: Circuit, finding: Finding) -> Iterator[Change]:
    yield Change(
        "/charger/connection", Hardwired(kind="hardwired"), "hardwired", "Connect the charger permanently."
    )


def _larger_lugs(request: CircuitFacts, circuit: Circuit, finding: Finding) -> Iterator[Change]:
    pointer = finding.pointer or ""
    if pointer.endswith("/largest") and circuit.sizes.ungrounded is not None:
        size = circuit.sizes.ungrounded
        yield Change(pointer, size, size, f"Use terminals that take {size}.")


AMPACITY_RULES = frozenset(
    {
        "conductor-continuous-load",
        "conductor-corrected-ampacity",
        "conductor-overcurrent-protection",
        "small-conductor-protection",
    }
)
OF_THE_LOAD = AMPACITY_RULES | {
    "overcurrent-continuous-load",
    "greatest-overcurrent-device",
    "receptacle-rating",
    "raceway-temperature",
    "terminal-sizes",
    "cable-size",
    "disconnecting-means",
    "neutral-size",
    "point-rating",
}

REVIEW_CANDIDATES: tuple[tuple[frozenset[str], Candidates], ...] = (
    (frozenset({"setting-label"}), _label),
    (frozenset({"terminal-torque"}), _torque),
    (frozenset({"current-setting"}), _setting_to_rating),
    (frozenset({"ground-fault-protection"}), _protection),
    (frozenset({"disconnecting-means"}), _disconnect),
    (frozenset({"emergency-shutoff"}), _shutoff),
    (frozenset({"supply-phases", "receptacle-configuration"}), _single_phase),
    (frozenset({"receptacle-listing"}), _listed_receptacle),
    (frozenset({"burial-cover"}), _deeper),
    (frozenset({"wiring-method-location"}), _listed_cable),
    (OF_THE_LOAD, _restricted_access),
    (
        AMPACITY_RULES
        | {
            "breaker-standard-rating",
            "greatest-overcurrent-device",
            "receptacle-rating",
            "point-rating",
            "grounding-conductor-size",
        },
        _smaller_breaker,
    ),
    (OF_THE_LOAD, _lower_setting),
    (frozenset({"grounding-conductor-size"}), _larger_grounding),
    (frozenset({"neutral-size"}), _larger_neutral),
    (frozenset({"raceway-fill"}), _larger_raceway),
    (frozenset({"raceway-temperature"}), _marked_raceway),
    (
        AMPACITY_RULES | {"raceway-temperature", "voltage-drop-target", "terminal-sizes", "cable-size"},
        _larger_conductors,
    ),
    (frozenset({"terminal-sizes", "cable-size", "raceway-fill"}), _smaller_conductors),
    (frozenset({"conductor-insulation-location"}), _insulation),
    (frozenset({"terminal-materials"}), _copper),
    (
        frozenset({"wiring-method-location", "raceway-ambient", "wiring-method-underground", "burial-cover"}),
        _other_method,
    ),
    (
        frozenset({"receptacle-configuration", "receptacle-rating", "receptacle-listing", "neutral-size"}),
        _hardwired,
    ),
)
"""Changes to an installed circuit, nearest first, with the failing rules that they may help."""

DESIGN_CANDIDATES: tuple[tuple[frozenset[str], Candidates], ...] = (
    (frozenset({"current-setting"}), _setting_to_rating),
    (frozenset({"supply-phases", "receptacle-configuration"}), _single_phase),
    (frozenset({"receptacle-listing"}), _listed_receptacle),
    (frozenset({"burial-cover"}), _deeper),
    (frozenset({"wiring-method-location"}), _listed_cable),
    (OF_THE_LOAD | {"raceway-fill"}, _restricted_access),
    (frozenset({"raceway-fill"}), _larger_raceway),
    (frozenset({"grounding-conductor-size"}), _larger_grounding),
    (frozenset({"conductor-insulation-location"}), _insulation),
    (frozenset({"raceway-temperature"}), _marked_raceway),
    (frozenset({"terminal-materials"}), _copper),
    (frozenset({"voltage-drop-target"}), _looser_target),
    (
        frozenset(
            {
                "wiring-method-location",
                "wiring-method-underground",
                "burial-cover",
                "raceway-ambient",
                "cable-size",
                "conductor-corrected-ampacity",
            }
        ),
        _other_method,
    ),
    (
        frozenset({"receptacle-configuration", "receptacle-rating", "receptacle-listing", "neutral-size"}),
        _hardwired,
    ),
    (frozenset({"terminal-sizes"}), _larger_lugs),
    (OF_THE_LOAD | {"raceway-fill"}, _less_charging),
)
"""Changes to what a design is asked for, nearest first."""
