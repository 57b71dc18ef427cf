"""Writes the steps of what a bill's lines bill: energy from date to tier, and demand."""

from dataclasses import dataclass

from branchwright.checks.charging_cost.tariffs.bills import BillLine
from branchwright.checks.charging_cost.tariffs.charges import Demand, EnergyCharge
from branchwright.checks.charging_cost.tariffs.priced import PricedTariff
from branchwright.checks.charging_cost.tariffs.worked_month import WorkedMonth
from branchwright.findings import StepInput
from branchwright.questions.ledger import StepLedger, stated

KWH = "kWh"


@dataclass(slots=True, frozen=True)
class BillPlaces:
    """Where a month's bill stands in request and answer.

    `prefix` begins the names of its steps. `tariff` is the JSON pointer of the tariff in the request, `meter_charge`
    that of the meter's own charge. Energies are read from `/days/<d>/kwh_by_period/<r>/taken_kwh` (or delivered_kwh)
    of the worked bill, in whose day d `rows_before[d]` rows belong to another meter; demands from
    `/demands/<i>/months/<j>/kw`, of which `demands_before` belong to another.
    """

    prefix: str
    tariff: str
    meter_charge: str
    rows_before: list[int]
    demands_before: int


class QuantitySteps:
    """Writes the quantities of one month's bill; each sum is written when the first line asks for it."""

    def __init__(
        self, ledger: StepLedger, priced: PricedTariff, worked: WorkedMonth, places: BillPlaces
    ) -> None:
        """Take the month and where it stands."""
        self._ledger = ledger
        self._priced = priced
        self._worked = worked
        self._places = places
        self._demand_charges = [each for each in priced.billing.charges if isinstance(each, Demand)]
        self._sums: dict[tuple[int, str], StepInput] = {}
        self._billed: dict[str, StepInput] = {}

    def energy(self, name: str, charge: EnergyCharge, tier: int, line: BillLine) -> StepInput:
        """Write the energy that a line bills, and return it."""
        # Tiers of one charge share their energy: it is known by the price of the first.
        whole = self._billed.get(charge.places[0])
        if whole is None:
            whole = self._billed[charge.places[0]] = self._energy(name, charge)
        ends = charge.ends.of_month[self._worked.month]
        if ends == [None]:
            return whole
        inputs = {"energy": whole}
        expression = "energy"
        end, begin = self._end(name, charge, tier), self._end(name, charge, tier - 1) if tier else None
        if end is not None:
            inputs["end"] = end
            expression = "min(energy, end)"
        if begin is not None:
            inputs["begin"] = begin
            expression = f"max({expression} - begin, 0)"
        quantity = f"energy of {line.name} in its tier" if len(charge.rates) > 1 else f"energy of {line.name}"
        return self._work_out(f"{name}-tier", quantity, expression, inputs, float(line.quantity), KWH)

    def demand(self, name: str, demand: Demand, line: BillLine) -> StepInput:
        """Write the demand that a line bills, and return it."""
        charge = demand.charge
        at = self._demand_charges.index(demand)
        measured = self._worked.demands[at]
        pointer = f"/demands/{self._places.demands_before + at}/months"
        names = ["measured", *(f"before_{back}" for back in range(1, len(measured.kw)))]
        inputs = {
            each: StepInput(kw, "kW", f"bill:{pointer}/{place}/kw")
            for place, (each, kw) in enumerate(zip(names, measured.kw, strict=True))
        }
        greatest = ["measured"]
        if charge.ratchet is not None:
            where = f"{self._places.tariff}/demand_charges/{at}/ratchet/percent"
            inputs["percent"] = stated(charge.ratchet.percent, "%", where)
            before = names[1] if len(names) == 2 else f"max({', '.join(names[1:])})"
            greatest.append(f"percent / 100 * {before}")
        if charge.least_kw is not None:
            where = f"{self._places.tariff}/demand_charges/{at}/least_kw"
            inputs["least"] = stated(charge.least_kw, "kW", where)
            greatest.append("least")
        expression = greatest[0] if len(greatest) == 1 else f"max({', '.join(greatest)})"
        share = demand.share[self._worked.month]
        if share != 1:
            expression += f" * {share:f}"
        return self._work_out(
            f"{name}-kw",
            f"demand of {line.name}",
            f"round({expression}, 6)",
            inputs,
            float(line.quantity),
            "kW",
        )

    def _energy(self, name: str, charge: EnergyCharge) -> StepInput:
        """Write the energy of a charge in the month, to a thousandth of a watt-hour."""
        flow = "delivered" if charge.of == "delivered" else "taken"
        sums: list[StepInput] = []
        for at, hours in enumerate(self._worked.hours):
            counts = charge.classes[hours.class_] if charge.group is None else charge.group in hours.groups
            found = self._sum(at, flow) if counts else None
            if found is not None:
                sums.append(found)
        inputs = {f"part_{place + 1}": each for place, each in enumerate(sums)}
        value = round(float(sum(float(each.value) for each in sums)), 6)
        expression = f"round({' + '.join(inputs)}, 6)"
        return self._work_out(f"{name}-energy", f"energy of {charge.name}", expression, inputs, value, KWH)

    def _sum(self, at: int, flow: str) -> StepInput | None:
        """Write the energy of some hours of the month, from date to date; None where there is none."""
        if (at, flow) in self._sums:
            return self._sums[at, flow]
        inputs: dict[str, StepInput] = {}
        name = ""
        for day, energies in enumerate(self._worked.energies):
            for row, energy in enumerate(energies):
                kwh = energy.taken_kwh if flow == "taken" else energy.delivered_kwh
                if energy.of == at and kwh:
                    place = f"/days/{day}/kwh_by_period/{self._places.rows_before[day] + row}/{flow}_kwh"
                    inputs[f"day_{day + 1}"] = StepInput(kwh, KWH, f"bill:{place}")
                    name = (
                        energy.period if energy.critical_peak is None else f"{energy.period}, critical peak"
                    )
        if not inputs:
            return None
        value = 0.0
        for each in inputs.values():
            value += float(each.value)
        self._sums[at, flow] = found = self._work_out(
            f"sum-{flow}-{at + 1}", f"energy {flow}, {name}", " + ".join(inputs), inputs, value, KWH
        )
        return found

    def _end(self, name: str, charge: EnergyCharge, tier: int) -> StepInput | None:
        """Return where a tier ends in the month, None where it is open; written where the tariff states another."""
        end, given = charge.ends.of_month[self._worked.month][tier], charge.ends.stated[tier]
        if end is None or given is None:
            return None
        stated_end = stated(given.up_to_kwh, KWH, self._places.tariff + given.place)
        if float(end) == given.up_to_kwh:
            return stated_end
        if given.place not in self._billed:
            days, of = charge.ends.days[self._worked.month]
            times = f"{days}" if charge.ends.is_daily else f"{days} / {of}"
            self._billed[given.place] = self._work_out(
                f"{name}-end-{tier + 1}",
                f"end of a tier of {charge.name} in this month",
                f"round(stated * {times}, 6)",
                {"stated": stated_end},
                float(end),
                KWH,
            )
        return self._billed[given.place]

    def _work_out(
        self, name: str, quantity: str, expression: str, inputs: dict[str, StepInput], value: float, unit: str
    ) -> StepInput:
        return self._ledger.work_out(
            self._places.prefix + name, quantity, expression, inputs, value, unit, None
        )
