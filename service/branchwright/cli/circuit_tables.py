"""Answers about circuits as tables for a terminal."""

from rich.console import Console
from rich.table import Table
from rich.text import Text

from branchwright.cli.tables import (
    VERDICTS,
    Answer,
    amperes,
    headed_table,
    show_findings,
    show_remarks,
    show_verdict,
    shown,
)


def show_circuit(console: Console, answer: Answer, *, remarks: bool = True) -> None:
    """Print verdict, design, findings and remedies; with `remarks`, also what to verify and the cautions."""
    show_verdict(console, answer)
    if answer["design"] is not None:
        console.print(_design(answer["design"], would_do="review_request" not in answer))
    show_findings(console, answer)
    for remedy in {
        item["remedy"]["message"]: item["remedy"] for item in answer["findings"] if item["remedy"]
    }.values():
        console.print(
            Text.assemble(
                ("Nearest remedy: ", "bold"),
                remedy["message"],
                f"  ({remedy['pointer']}: {remedy['given']} -> {remedy['proposed']}; then: {remedy['verdict']})",
            )
        )
    if remarks:
        show_remarks(console, answer)


def show_comparison(console: Console, answer: Answer, *, remarks: bool = True) -> None:
    """Print a row for each charging current, its circuit and its energy; below, where to stop and why.

    Then what some rows lack or fail, and on which readings their verdicts rest; with `remarks`, also what to verify
    and the cautions.
    """
    headings = ["current", "breaker", "conductors", "ground", "raceways", "kW", "kWh a night"]
    priced = answer["price_book"] is not None
    table = headed_table("Charging currents side by side", *headings, *(["cost", "more"] if priced else []))
    for row in answer["rows"]:
        raceways = ", ".join(raceway["trade_size"] for raceway in row["raceways"])
        circuit = (
            ("none", ", ".join(row["failed_rules"]), "", "")
            if row["breaker_rating_a"] is None
            else (
                f"{shown(row['breaker_rating_a'])} A",
                row["ungrounded_size"],
                row["grounding_size"],
                raceways,
            )
        )
        night = "" if row["kwh_per_night"] is None else shown(row["kwh_per_night"])
        current = f"{shown(row['charging_current_a'])} A"
        cost = _cost(row["cost"]) if priced else []
        table.add_row(current, *circuit, shown(row["power_kw"]), night, *cost)
    console.print(table)
    if priced:
        _show_prices(console, answer)
    for row in answer["rows"]:
        if row["mark"] is not None:
            console.print(f"{shown(row['charging_current_a'])} A: {row['mark']}.", highlight=False)
    lacking: dict[str, list[float]] = {}
    for row in answer["rows"]:
        rules = row["failed_rules"] or row["undetermined_rules"]
        if rules:
            words, _ = VERDICTS.get(row["verdict"], (row["verdict"], ""))
            lacking.setdefault(f"{words[0].lower()}{words[1:]} ({', '.join(rules)})", []).append(
                row["charging_current_a"]
            )
    for words, currents in lacking.items():
        console.print(f"{amperes(currents)}: {words}.", highlight=False)
    for item in answer["interpretations"]:
        for other in item["other_readings"]:
            if other["currents_a"]:
                console.print(
                    f"[yellow]{item['name']}[/] is read as {item['reading']}; {other['reading']} changes the "
                    f"verdict at {amperes(other['currents_a'])}.",
                    highlight=False,
                )
    if remarks:
        show_remarks(console, answer)


def _design(design: Answer, *, would_do: bool) -> Table:
    table = Table(title="The design that would do" if would_do else "Design", show_header=False)
    conductors = design["conductors"]
    ungrounded = conductors["ungrounded"]
    insulation = f", {ungrounded['insulation']}" if ungrounded["insulation"] else ""
    table.add_row("breaker", f"{shown(design['breaker']['rating_a'])} A, {design['breaker']['poles']} poles")
    table.add_row(
        "ground-fault protection",
        f"{_needed(design['breaker']['ground_fault_protection']['required'])}: "
        f"{design['breaker']['ground_fault_protection']['why']}",
    )
    table.add_row(
        "ungrounded conductors",
        f"{ungrounded['count']} x {ungrounded['size']} {ungrounded['material']}{insulation}",
    )
    if conductors["neutral"]:
        table.add_row("neutral", conductors["neutral"]["size"])
    table.add_row(
        "grounding conductor", f"{conductors['grounding']['size']} {conductors['grounding']['material']}"
    )
    for index, segment in enumerate(design["segments"]):
        raceway = segment["raceway"]
        filled = (
            f", trade size {raceway['trade_size']}, filled {raceway['fill_percent']} of "
            f"{shown(raceway['fill_limit_percent'])} %"
            if raceway
            else ""
        )
        table.add_row(
            f"segment {index}",
            f"{segment['wiring_method']}{filled}{_depth(segment['cover'])}, ampacity "
            f"{shown(segment['ampacity_a'])} A",
        )
    table.add_row(
        "disconnecting means", f"{_needed(design['disconnect']['required'])}: {design['disconnect']['why']}"
    )
    if design["emergency_shutoff"]["required"] is not False:
        shutoff = design["emergency_shutoff"]
        table.add_row("emergency shutoff", f"{_needed(shutoff['required'])}: {shutoff['why']}")
    if design["label"]["current_a"] is not None:
        label = design["label"]
        table.add_row(
            "label of the setting",
            f"{_needed(label['required'])}, {shown(label['current_a'])} A: {label['why']}",
        )
    drop = design["voltage_drop"]
    if drop:
        table.add_row("voltage drop", f"{drop['volts']:.2f} V, {drop['percent']:.2f} %")
    table.add_row("conductors set by", design["governed_by"]["conductors"])
    return table


def _cost(cost: Answer | None) -> list[str]:
    """Return the likely cost of a current with its range, and what it costs more than the lower one."""
    if cost is None:
        return ["", ""]
    total, more = cost["total"], cost["more_than_lower_current"]
    unpriced = "" if cost["is_complete"] else f"; without {', '.join(cost['unpriced'])}"
    return [
        f"{total['likely']} ({total['low']} to {total['high']}){unpriced}",
        "" if more is None else more,
    ]


def _show_prices(console: Console, answer: Answer) -> None:
    """Print what the costs rest on."""
    book = answer["price_book"]
    invented = "; they are invented" if book["is_demo"] else ""
    currency = book["currency"] or "currency not stated"
    console.print(Text(f"Prices: {book['name']}, of {book['dated']}, {currency}{invented}."))


def _depth(cover: Answer | None) -> str:
    if cover is None:
        return ""
    return f", {shown(cover['least']['value'])} {cover['least']['unit']} of cover under {cover['under']}"


def _needed(required: bool | None) -> str:
    return "undetermined" if required is None else "required" if required else "not required"
