"""Chooses the series of the load among those of a Green Button file, where there is no doubt which it is."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Final

from branchwright.checks.service_capacity.interval_data.facts import Unit
from branchwright.checks.service_capacity.interval_data.faults import Faults
from branchwright.checks.service_capacity.interval_data.green_button.linking import Series
from branchwright.questions.answers import ToVerify

FORWARD, NET, REVERSE, TOTAL = "1", "4", "19", "20"
_FLOWS: Final = {"0": "not stated", FORWARD: "delivered", NET: "net", REVERSE: "received", TOTAL: "total"}
ELECTRICITY: Final = ("0", "1", "2")
ENERGY, POWER = "72", "38"
DELTA: Final = ("0", "4")
REGISTERS: Final = ("1", "2", "3")
INSTANTANEOUS: Final = ("6", "12")
EXTREMES: Final = {"8": "the greatest", "9": "the least"}
"""Codes of NAESB ESPI: FlowDirection, Commodity, UnitSymbol, AccumulationBehaviour and DataQualifier."""

MOST_NAMED = 8
GREATEST_POWER_OF_TEN = 12


@dataclass(slots=True)
class Chosen:
    """The series of the load, and what its type says of the values."""

    series: Series
    unit: Unit
    factor: float
    """From the values to the unit."""

    fields: Mapping[str, str]
    signs_of_generation: list[str] = field(default_factory=list[str])
    to_verify: list[ToVerify] = field(default_factory=list[ToVerify])


def choose(found: list[Series], wanted: str | None, faults: Faults) -> Chosen | None:
    """Return the series of the load; None, with faults, where none can be it or several can.

    `wanted` is the title or self link of a usage point or meter reading that the request names.
    """
    signs = (
        ["the file has a series of energy received"] if any(_flow(each) == REVERSE for each in found) else []
    )
    named = found
    if wanted is not None:
        named = [series for series in found if series.answers_to(wanted)]
        if not named:
            faults.add(
                "series",
                "query:meter_reading",
                f"no series of the file has this title or link: {_listed(found)}.",
                wanted,
            )
            return None
    reasons = [(series, why_not(series)) for series in named]
    fitting = [series for series, reason in reasons if reason is None]
    if not fitting:
        for series, reason in reasons:
            faults.add("series", series.name, f"it cannot be the load: {reason}.")
        if not reasons:
            faults.add("layout", "body", "the file has no IntervalBlock with a reading.")
        return None
    if len(fitting) > 1:
        faults.add(
            "series",
            "query:meter_reading",
            f"{len(fitting)} series of the file can be the load; name one: {_listed(fitting)}.",
            wanted,
        )
        return None
    return _typed(fitting[0], signs, faults)


def _flow(series: Series) -> str:
    return series.reading_type.fields.get("flowDirection", "0") if series.reading_type else "0"


def why_not(series: Series) -> str | None:
    """Return why a series cannot be the load; None where it can."""
    point, kind = series.usage_point, series.reading_type
    if point is not None and point.fields.get("kind", "0") != "0":
        return f"its usage point is of service kind {point.fields['kind']}, not of electricity"
    fields = kind.fields if kind is not None else {}
    if fields.get("commodity", "1") not in ELECTRICITY:
        return f"its commodity is {fields['commodity']}, not electricity"
    unit = fields.get("uom", ENERGY)
    if unit not in (ENERGY, POWER):
        return f"its unit (uom) is {unit}, neither 72 (Wh) nor 38 (W)"
    if fields.get("flowDirection", "0") not in (*_FLOWS,) or _flow(series) == REVERSE:
        return f"its flow (flowDirection) is {_flow(series)}, not that of delivered energy"
    if fields.get("dataQualifier") in EXTREMES:
        return f"its values are {EXTREMES[fields['dataQualifier']]} of each interval, not averages"
    behaviour = fields.get("accumulationBehaviour", "4")
    if unit == POWER and behaviour in INSTANTANEOUS:
        return "its values are of instants, not averages"
    if unit == ENERGY and behaviour not in (*DELTA, *REGISTERS):
        return (
            f"its accumulation (accumulationBehaviour) is {behaviour}, neither of intervals nor of a register"
        )
    return None


def _listed(found: list[Series]) -> str:
    named = "; ".join(
        f"{series.name}, {_FLOWS.get(_flow(series), _flow(series))}" for series in found[:MOST_NAMED]
    )
    return named if len(found) <= MOST_NAMED else f"{named}; {len(found) - MOST_NAMED} more"


def _typed(series: Series, signs: list[str], faults: Faults) -> Chosen | None:
    kind = series.reading_type
    if kind is None:
        faults.add("missing", series.name, "no ReadingType belongs to it, so its unit is unknown.")
        return None
    fields = kind.fields
    if "uom" not in fields:
        faults.add("missing", kind.entry.name, "its ReadingType states no unit (uom).")
        return None
    power_of_ten = _whole(fields.get("powerOfTenMultiplier", "0"))
    if power_of_ten is None or abs(power_of_ten) > GREATEST_POWER_OF_TEN:
        faults.add(
            "layout", kind.entry.name, "its powerOfTenMultiplier is none.", fields["powerOfTenMultiplier"]
        )
        return None
    behaviour = fields.get("accumulationBehaviour", "0")
    unit: Unit = "power-w"
    if fields["uom"] == ENERGY:
        unit = "register-wh" if behaviour in REGISTERS else "energy-wh"
    chosen = Chosen(series, unit, 10.0**power_of_ten, fields, signs)
    _note(chosen)
    return chosen


def _note(chosen: Chosen) -> None:
    """Note what the type of the series leaves open or says of generation."""
    fields = chosen.fields
    flow = fields.get("flowDirection", "0")
    if flow == NET:
        chosen.signs_of_generation.append("the series is net of energy received")
    if flow == TOTAL:
        chosen.signs_of_generation.append("the series adds energy received to energy delivered")
    for name, assumed in (
        ("flowDirection", "delivered"),
        ("accumulationBehaviour", "of each interval"),
    ):
        if fields.get(name, "0") == "0":
            chosen.to_verify.append(
                ToVerify(
                    f"body:ReadingType/{name}", f"not stated, taken as {assumed}", "the utility's description"
                )
            )
    if "powerOfTenMultiplier" not in fields:
        chosen.to_verify.append(
            ToVerify(
                "body:ReadingType/powerOfTenMultiplier", "not stated, taken as 0", "bills of the same time"
            )
        )


def _whole(text: str) -> int | None:
    digits = text.removeprefix("-")
    return int(text) if digits.isdecimal() and digits.isascii() and len(digits) <= 3 else None
