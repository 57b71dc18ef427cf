"""The working of an answer: every figure as a step that a reader can replay.

Sizes are named as the request states them, or, where the design chose them, as the row of the codebook's
table that they are.
"""

from math import fsum

from branchwright.calculations.ampacity import corrected_ampacity_a, rooftop_ambient_c, short_length_limit_ft
from branchwright.calculations.conductor_temperature import operating_temperature_c
from branchwright.calculations.continuous_load import least_rating_a
from branchwright.calculations.grounding import proportional_area_cmil
from branchwright.calculations.raceway_fill import fill_percent, same_size_count
from branchwright.calculations.voltage_drop import drop_percent, drop_v, loop_ohm
from branchwright.checks.circuits.circuit import (
    Circuit,
    neutral_count,
    run_ampacity_a,
    segment_ampacity_a,
    terminal_ampacity_a,
)
from branchwright.checks.circuits.facts import CircuitReviewRequest
from branchwright.checks.circuits.given import Given, SegmentConditions
from branchwright.checks.circuits.rules.grounding_conductor import grounding_need
from branchwright.checks.circuits.rules.raceways import REFERENCE_COLUMN, fill, filling
from branchwright.findings import Citation, Step, StepInput
from branchwright.findings.citations import Value
from branchwright.quantities.lengths import UNITS_PER_FOOT

_ESCAPES = str.maketrans({"~": "~0", "/": "~1"})


class Working:
    """Collects the steps of one circuit."""

    def __init__(self, circuit: Circuit) -> None:
        """Work out every figure that can be had from what is stated or chosen."""
        self.circuit = circuit
        self.given: Given = circuit.given
        self.steps: list[Step] = []
        self.ambients: dict[int, StepInput] = {}
        self.adjustments: dict[int, StepInput] = {}
        self.lengths: dict[int, StepInput] = {}
        self._load()
        self._terminal_column()
        if circuit.sizes.ungrounded is not None:
            self._ungrounded()

    def _add(self, step: Step) -> Step:
        self.steps.append(step)
        return step

    def _look_up(
        self,
        step_id: str,
        quantity: str,
        expression: str,
        inputs: dict[str, StepInput],
        value: Value,
        unit: str,
        citation: Citation,
        segment: int | None = None,
    ) -> Step:
        step = Step(step_id, quantity, segment, expression, inputs, value, unit, citation)
        self.steps.append(step)
        return step

    def _request(self, value: Value, unit: str, pointer: str) -> StepInput:
        return StepInput(value, unit, "request:" + pointer)

    def _size(self, what: str, size: str) -> StepInput:
        """Return a size as stated in a review, or as the row of the ampacity table that the design chose."""
        if self.circuit.is_review:
            return StepInput(size, "size", "request:" + self.circuit.pointer(what))
        return StepInput(size, "size", f"codebook:ampacity/{size.translate(_ESCAPES)}/size")

    def _grounding_material(self) -> StepInput:
        circuit = self.circuit
        facts = circuit.facts
        pointer = (
            "/conductors/grounding_material"
            if facts.conductors.grounding_material
            else "/conductors/material"
        )
        if isinstance(facts, CircuitReviewRequest) and facts.installed.grounding_material:
            pointer = "/installed/grounding_material"
        return self._request(circuit.sizes.grounding_material, "text", pointer)

    def _load(self) -> None:
        given = self.given
        edition = given.edition
        stated = self._request(given.load_a, "A", given.load_pointer)
        setting = edition.provision("current-setting").citation
        self.load = self._look_up(
            "load",
            "current that counts as the load",
            "current_a",
            {"current_a": stated},
            given.load_a,
            "A",
            setting,
        ).as_input()
        factor = edition.provision("continuous-load")
        least = self._add(
            least_rating_a.step(
                "least-breaker-current",
                {"factor": factor.values["factor"], "load_a": self.load},
                factor.citation,
            )
        )
        if self.circuit.is_review:
            if given.breaker_a is not None:
                self.breaker = self._request(given.breaker_a, "A", self.circuit.pointer("breaker"))
        elif given.breaker_a is not None:
            floor = edition.provision("branch-circuit-rating").values["least_a"]
            self.breaker = self._look_up(
                "breaker-rating",
                "least standard rating of the breaker",
                "lookup(standard_ratings, max(least_a, floor_a))",
                {"least_a": least.as_input(), "floor_a": floor},
                given.breaker_a,
                "A",
                edition.citation_of("standard_ratings"),
            ).as_input()

    def _terminal_column(self) -> None:
        given = self.given
        provision = given.edition.provision("termination-temperature")
        small = given.breaker_a is None or given.breaker_a <= provision.number("circuit_up_to_a")
        unmarked = provision.values["unmarked_up_to_c" if small else "unmarked_above_c"]
        inputs: dict[str, StepInput] = {"greatest_c": provision.values["greatest_c"]}
        for place in given.terminals:
            name = place.at.replace("/", "_") + "_c"
            rating = place.marked.temperature_rating_c if place.marked else None
            inputs[name] = (
                unmarked
                if rating is None
                else self._request(float(rating), "degC", place.pointer + "/temperature_rating_c")
            )
        self.column = self._look_up(
            "termination-column",
            "temperature column of the lowest-rated terminal",
            f"min({', '.join(inputs)})",
            inputs,
            float(given.column),
            "degC",
            provision.citation,
        ).as_input()

    def _ungrounded(self) -> None:
        circuit, given = self.circuit, self.given
        edition = given.edition
        size = circuit.ungrounded
        if (size, given.material, 90) not in edition.ampacities_a:
            return
        self.size = self._size("ungrounded", size)
        self.material = self._request(given.material, "text", "/conductors/material")
        factor = edition.provision("conductor-continuous-load")
        self._add(
            least_rating_a.step(
                "least-ampacity-before-correction",
                {"factor": factor.values["factor"], "load_a": self.load},
                factor.citation,
            )
        )
        caps = [segment.method.cap_c for segment in given.segments if segment.method.cap_c is not None]
        inputs = {"size": self.size, "material": self.material, "column_c": self.column}
        expression = "lookup(ampacity, size, material, column_c)"
        if caps:
            inputs["cap_c"] = caps[0]
            expression = f"min({expression}, lookup(ampacity, size, material, cap_c))"
        terminal = self._look_up(
            "terminal-ampacity",
            "ampacity before correction, at the terminals' column and within any cable's cap",
            expression,
            inputs,
            terminal_ampacity_a(given, size),
            "A",
            edition.citation_of("ampacity"),
        )
        ampacities = [self._segment_ampacity(segment) for segment in given.segments]
        run = self._run_ampacity(ampacities)
        if run is not None:
            protected = self._look_up(
                "protected-ampacity",
                "ampacity that the breaker protects",
                "min(run_a, terminal_a)",
                {"run_a": run.as_input(), "terminal_a": terminal.as_input()},
                min(run_ampacity_a(given, size), terminal_ampacity_a(given, size)),
                "A",
                edition.provision("next-size-up").citation,
            )
            self._permitted_breaker(protected)
        if given.breaker_a is not None:
            self._grounding()
        for segment in given.segments:
            self._fill(segment)
            self._temperature(segment)
        self._voltage_drop()

    def _segment_ampacity(self, segment: SegmentConditions) -> Step | None:
        given = self.given
        edition = given.edition
        at = f"segment-{segment.index}-"
        ambient = self._ambient(segment)
        if segment.correction is None:
            return None
        start = segment.method.start_c or edition.insulation_temperatures.get(
            (given.insulation, segment.location)
        )
        if start is None:
            return None
        correction = self._look_up(
            at + "correction",
            "ambient correction factor",
            "lookup(ambient_correction, ambient_c, column_c)",
            {"ambient_c": ambient, "column_c": start},
            segment.correction.number,
            "1",
            segment.correction.citation,
            segment.index,
        )
        adjustment: StepInput = segment.adjustment
        if (
            segment.adjustment_percent != 100.0
            and segment.facts.other_current_carrying_conductors is not None
        ):
            adjustment = self._look_up(
                at + "adjustment",
                "adjustment for the number of current-carrying conductors",
                f"lookup(conductor_count_adjustment, {2 + given.neutral_counts} + others)",
                {
                    "others": self._request(
                        float(segment.facts.other_current_carrying_conductors),
                        "count",
                        f"/run/{segment.index}/other_current_carrying_conductors",
                    )
                },
                segment.adjustment_percent,
                "%",
                segment.adjustment.citation,
                segment.index,
            ).as_input()
        self.adjustments[segment.index] = adjustment
        corrected = self._add(
            corrected_ampacity_a.step(
                at + "corrected-ampacity",
                {
                    "ampacity_a": edition.ampacities[
                        self.circuit.ungrounded, given.material, segment.start_column
                    ],
                    "correction": correction.as_input(),
                    "adjustment_percent": adjustment,
                },
                edition.provision("conductor-actual-load").citation,
                segment.index,
            )
        )
        if segment.cap_column is None or segment.method.cap_c is None:
            return corrected
        return self._look_up(
            at + "ampacity",
            "ampacity within the cable's cap",
            "min(corrected_a, lookup(ampacity, size, material, cap_c))",
            {
                "corrected_a": corrected.as_input(),
                "size": self.size,
                "material": self.material,
                "cap_c": segment.method.cap_c,
            },
            segment_ampacity_a(given, segment, self.circuit.ungrounded),
            "A",
            segment.method.ampacity_citation or edition.citation_of("ampacity"),
            segment.index,
        )

    def _ambient(self, segment: SegmentConditions) -> StepInput:
        """Return the segment's ambient temperature, with the rooftop adder where it applies."""
        base: StepInput = (
            self.given.edition.provision("base-ambient").values["ambient_c"]
            if segment.facts.ambient_c is None
            else self._request(segment.base_ambient_c, "degC", f"/run/{segment.index}/ambient_c")
        )
        ambient = base
        if segment.adder is not None:
            ambient = self._add(
                rooftop_ambient_c.step(
                    f"segment-{segment.index}-rooftop-ambient",
                    {"ambient_c": base, "adder_c": segment.adder},
                    segment.adder.citation,
                    segment.index,
                )
            ).as_input()
        self.ambients[segment.index] = ambient
        return ambient

    def _run_ampacity(self, ampacities: list[Step | None]) -> Step | None:
        given = self.given
        known = [step for step in ampacities if step is not None]
        if len(known) < len(ampacities):
            return None
        governing = run_ampacity_a(given, self.circuit.ungrounded)
        kept = [step for step in known if isinstance(step.value, float) and step.value >= governing]
        if len(kept) < len(known):
            self._short_length(kept)
        inputs = {f"segment_{step.segment}_a": step.as_input() for step in kept}
        return self._look_up(
            "run-ampacity",
            "ampacity of the run",
            f"min({', '.join(inputs)})" if len(inputs) > 1 else next(iter(inputs)),
            inputs,
            governing,
            "A",
            given.edition.provision("conductor-actual-load").citation,
        )

    def _short_length(self, kept: list[Step]) -> None:
        """Show that the segments of lower ampacity are short enough to be disregarded."""
        given = self.given
        provision = given.edition.provision("short-length-exception")
        high = {step.segment for step in kept}
        lengths = {
            name: {
                f"segment_{segment.index}_ft": self._length(segment)
                for segment in given.segments
                if (segment.index in high) is is_high
            }
            for name, is_high in (("high", True), ("low", False))
        }
        sums = {
            name: self._look_up(
                f"length-at-{name}er-ampacity",
                f"length at the {name}er ampacity",
                " + ".join(inputs),
                dict(inputs),
                sum(float(item.value) for item in inputs.values()),
                "ft",
                provision.citation,
            )
            for name, inputs in lengths.items()
        }
        self._add(
            short_length_limit_ft.step(
                "short-length-limit",
                {
                    "longest_ft": provision.values["longest_ft"],
                    "greatest_percent": provision.values["greatest_percent"],
                    "high_ft": sums["high"].as_input(),
                },
                provision.citation,
            )
        )

    def _permitted_breaker(self, protected: Step) -> None:
        given = self.given
        edition = given.edition
        permitted = edition.standard_rating_at_least(float(protected.value))
        provision = edition.provision("next-size-up")
        if (
            permitted is not None
            and permitted.number <= provision.number("up_to_a")
            and float(protected.value) > 0
        ):
            self._look_up(
                "permitted-breaker",
                "greatest standard rating that protects this ampacity",
                "lookup(standard_ratings, ampacity_a)",
                {"ampacity_a": protected.as_input()},
                permitted.number,
                "A",
                provision.citation,
            )

    def _grounding(self) -> None:
        circuit, given = self.circuit, self.given
        edition = given.edition
        need = grounding_need(
            given,
            circuit.breaker_a,
            circuit.ungrounded,
            circuit.minimum_size,
            circuit.sizes.grounding_material,
        )
        if need is None:
            return
        self._look_up(
            "grounding-conductor-by-breaker",
            "grounding conductor by the breaker's rating",
            "lookup(grounding_conductor, breaker_a, material)",
            {"breaker_a": self.breaker, "material": self._grounding_material()},
            need.table.value,
            "size",
            need.table.citation,
        )
        if need.grew:
            self._add(
                proportional_area_cmil.step(
                    "grounding-conductor-area",
                    {
                        "table_cmil": edition.areas_cmil[need.table.name],
                        "installed_cmil": edition.areas_cmil[need.installed],
                        "minimum_cmil": edition.areas_cmil[need.minimum],
                    },
                    edition.provision("grounding-proportion").citation,
                )
            )

    def _fill(self, segment: SegmentConditions) -> None:
        circuit, given = self.circuit, self.given
        edition = given.edition
        sizes = circuit.sizes
        trade_size = sizes.trade_sizes[segment.index]
        if not segment.method.is_raceway or trade_size is None or sizes.grounding is None:
            return
        content = filling(given, segment, sizes)
        if content is None:
            return
        filled = fill(segment, content, trade_size)
        at = f"segment-{segment.index}-"
        areas = edition.conductor_areas
        ungrounded = areas[given.insulation, circuit.ungrounded]
        neutral = areas[given.insulation, sizes.neutral or circuit.ungrounded]
        others = segment.facts.other_conductors_area_in2
        inputs: dict[str, StepInput] = {
            "ungrounded_in2": ungrounded,
            "grounding_in2": areas[given.insulation, sizes.grounding],
        }
        expression = "2 * ungrounded_in2 + grounding_in2"
        if neutral_count(given):
            inputs["neutral_in2"] = neutral
            expression = "2 * ungrounded_in2 + neutral_in2 + grounding_in2"
        if others:
            inputs["other_in2"] = self._request(
                others, "in2", f"/run/{segment.index}/other_conductors_area_in2"
            )
            expression += " + other_in2"
        area = self._look_up(
            at + "conductors-area",
            "area of the conductors, the grounding conductor included",
            expression,
            inputs,
            filled.area_in2,
            "in2",
            edition.citation_of("conductor_areas"),
            segment.index,
        )
        self._add(
            fill_percent.step(
                at + "fill",
                {"area_in2": area.as_input(), "raceway_in2": segment.method.areas[trade_size]},
                filled.limit.citation,
                segment.index,
            )
        )
        if filled.holds and filled.percent > filled.limit.number:
            self._add(
                same_size_count.step(
                    at + "same-size-count",
                    {
                        "limit_percent": filled.limit,
                        "raceway_in2": segment.method.areas[trade_size],
                        "conductor_in2": ungrounded,
                    },
                    filled.limit.citation,
                    segment.index,
                )
            )

    def _temperature(self, segment: SegmentConditions) -> None:
        given = self.given
        edition = given.edition
        if segment.correction_75 is None or segment.index not in self.adjustments:
            return
        at = f"segment-{segment.index}-"
        ambient = self.ambients[segment.index]
        reference = edition.ampacities[self.circuit.ungrounded, given.material, REFERENCE_COLUMN]
        ampacity = self._add(
            corrected_ampacity_a.step(
                at + "ampacity-of-75-column",
                {
                    "ampacity_a": reference,
                    "correction": segment.correction_75,
                    "adjustment_percent": self.adjustments[segment.index],
                },
                reference.citation,
                segment.index,
            )
        )
        self._add(
            operating_temperature_c.step(
                at + "operating-temperature",
                {
                    "ambient_c": ambient,
                    "rating_c": edition.provision("operating-temperature").values["reference_c"],
                    "load_a": self.load,
                    "ampacity_a": ampacity.as_input(),
                },
                segment.method.temperature_citation or edition.citation_of("ambient_correction"),
                segment.index,
            )
        )

    def _length(self, segment: SegmentConditions) -> StepInput:
        """Return the segment's length in feet, converting it once where it was stated in another unit."""
        if segment.index in self.lengths:
            return self.lengths[segment.index]
        stated = segment.facts.length
        length = self._request(stated.value, stated.unit, f"/run/{segment.index}/length/value")
        if stated.unit != "ft":
            length = self._add(
                Step(
                    f"segment-{segment.index}-length",
                    "length in feet",
                    segment.index,
                    f"length / {UNITS_PER_FOOT[stated.unit]:g}",
                    {"length": length},
                    segment.length_ft,
                    "ft",
                    None,
                )
            ).as_input()
        self.lengths[segment.index] = length
        return length

    def _voltage_drop(self) -> None:
        circuit, given = self.circuit, self.given
        edition = given.edition
        citation = edition.citation_of("conductor_impedance")
        totals: dict[str, dict[str, StepInput]] = {"resistance": {}, "reactance": {}}
        for segment in given.segments:
            column = segment.method.impedance_column
            resistance = edition.resistance(circuit.ungrounded, given.material, column)
            reactance = edition.reactance(circuit.ungrounded, column)
            if resistance is None or reactance is None:
                return
            length = self._length(segment)
            for name, per_kft in (("resistance", resistance), ("reactance", reactance)):
                totals[name][f"segment_{segment.index}_ohm"] = self._add(
                    loop_ohm.step(
                        f"segment-{segment.index}-{name}",
                        {"ohm_per_kft": per_kft, "length_ft": length},
                        citation,
                        segment.index,
                    )
                ).as_input()
        sums = {
            name: self._look_up(
                f"run-{name}",
                f"{name} of the run, out and back",
                " + ".join(inputs),
                inputs,
                fsum(float(item.value) for item in inputs.values()),
                "ohm",
                citation,
            ).as_input()
            for name, inputs in totals.items()
        }
        cited = edition.provision("voltage-drop").citation
        nominal = edition.voltage_between_lines(given.facts.supply.system)
        drop = self._add(
            drop_v.step(
                "voltage-drop",
                {
                    "voltage_v": nominal,
                    "load_a": self._request(
                        given.facts.charger.charging_current_a, "A", "/charger/charging_current_a"
                    ),
                    "resistance_ohm": sums["resistance"],
                    "reactance_ohm": sums["reactance"],
                },
                cited,
            )
        )
        self._add(
            drop_percent.step(
                "voltage-drop-percent", {"drop_v": drop.as_input(), "voltage_v": nominal}, cited
            )
        )
