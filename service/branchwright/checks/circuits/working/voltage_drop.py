"""Steps of the voltage drop."""

from math import fsum

from branchwright.calculations.voltage_drop import drop_percent, drop_v, line_ohm, loop_ohm
from branchwright.checks.circuits.working.ledger import Ledger
from branchwright.findings import StepInput
from branchwright.questions.ledger import stated


def voltage_drop(ledger: Ledger) -> None:
    """Enter resistance and reactance by segment, their sums, and the drop; nothing for a size without impedance."""
    circuit, given, edition = ledger.circuit, ledger.given, ledger.edition
    citation = edition.citation_of("conductor_impedance")
    ohm = loop_ohm if given.phases == 1 else line_ohm
    parts: dict[str, dict[str, StepInput]] = {"resistance": {}, "reactance": {}}
    for segment in given.segments:
        column = segment.method.impedance_column
        resistance = edition.resistance(circuit.ungrounded, given.material, column)
        reactance = edition.reactance(circuit.ungrounded, column)
        if resistance is None or reactance is None:
            return
        length = ledger.length(segment)
        for name, per_kft in (("resistance", resistance), ("reactance", reactance)):
            parts[name][f"segment_{segment.index}_ohm"] = ledger.add(
                ohm.step(
                    f"segment-{segment.index}-{name}",
                    {"ohm_per_kft": per_kft, "length_ft": length},
                    citation,
                    segment.index,
                )
            )
    sums = {
        name: ledger.work_out(
            f"run-{name}",
            f"{name} of the run, {'out and back' if given.phases == 1 else 'between the lines'}",
            " + ".join(inputs),
            inputs,
            fsum(float(item.value) for item in inputs.values()),
            "ohm",
            citation,
        )
        for name, inputs in parts.items()
    }
    cited = edition.provision("voltage-drop").citation
    nominal = edition.voltage_between_lines(given.facts.supply.system)
    drop = ledger.add(
        drop_v.step(
            "voltage-drop",
            {
                "voltage_v": nominal,
                "load_a": stated(given.facts.charger.charging_current_a, "A", "/charger/charging_current_a"),
                "resistance_ohm": sums["resistance"],
                "reactance_ohm": sums["reactance"],
                "power_factor": (
                    stated(given.power_factor, "1", "/charger/power_factor")
                    if given.facts.charger.power_factor is not None
                    else edition.provision("voltage-drop").values["power_factor"]
                ),
            },
            cited,
        )
    )
    ledger.note(drop_percent.step("voltage-drop-percent", {"drop_v": drop, "voltage_v": nominal}, cited))
