"""Answers as tables for a terminal."""

from collections.abc import Mapping
from typing import Any, Final

from rich.console import Console
from rich.panel import Panel
from rich.table import Table
from rich.text import Text

Answer = Mapping[str, Any]

OUTCOME_STYLES: Final = {
    "pass": "green",
    "fail": "bold red",
    "undetermined": "yellow",
    "not-applicable": "dim",
}
VERDICTS: Final = {
    "no-failure-found": ("No failure found in what was stated", "green"),
    "fail": ("A requirement fails", "bold red"),
    "undetermined": ("A needed fact is missing", "yellow"),
}


def show_answer(console: Console, answer: Answer, *, remarks: bool = True) -> None:
    """Print verdict, design, findings and remedies; with `remarks`, also what to verify and the cautions."""
    words, style = VERDICTS.get(answer["verdict"], (answer["verdict"], ""))
    console.print(Panel(Text(words, style=style), title=answer["edition"], expand=False))
    if answer["design"] is not None:
        console.print(_design(answer["design"], would_do="review_request" not in answer))
    console.print(_findings(answer))
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
    for item in answer["interpretations"]:
        if item["changes_verdict"]:
            others = ", ".join(f"{other['reading']}: {other['verdict']}" for other in item["other_readings"])
            console.print(f"[yellow]{item['name']}[/] is read as {item['reading']}; by {others}.")
    if remarks:
        _show_remarks(console, answer)


def _show_remarks(console: Console, answer: Answer) -> None:
    """Print what to verify on site, what was not examined, and the cautions."""
    for title, lines in (
        (
            "To verify on site",
            [f"{item['pointer']}: {item['stated']} ({item['evidence']})" for item in answer["to_verify"]],
        ),
        ("Not examined", answer["not_examined"]),
        ("Cautions", answer["cautions"]),
    ):
        if lines:
            console.print(Text(title, style="bold"))
            for line in lines:
                console.print(Text(f"  - {line}"))


def show_working(console: Console, answer: Answer, wanted: int) -> None:
    """Print the first steps of an answer's working."""
    table = Table(title=f"The first {wanted} of {len(answer['steps'])} steps; anyone can replay them")
    for heading in ("quantity", "expression", "inputs", "value", "section"):
        table.add_column(heading, overflow="fold")
    for step in answer["steps"][:wanted]:
        inputs = ", ".join(f"{name} = {_shown(item['value'])}" for name, item in step["inputs"].items())
        section = step["citation"]["section"] if step["citation"] else ""
        value = _shown(step["value"]) + ("" if step["unit"] in ("1", "size", "text") else f" {step['unit']}")
        table.add_row(step["quantity"], step["expression"], inputs, value, section)
    console.print(table)


def show_comparison(console: Console, answer: Answer, *, remarks: bool = True) -> None:
    """Print a row for each charging current, its circuit and its energy; below, where to stop and why.

    Then what some rows lack or fail, and on which readings their verdicts rest; with `remarks`, also what to verify
    and the cautions.
    """
    table = Table(title="Charging currents side by side")
    for heading in ("current", "breaker", "conductors", "ground", "raceways", "kW", "kWh a night"):
        table.add_column(heading, overflow="fold")
    for row in answer["rows"]:
        raceways = ", ".join(raceway["trade_size"] for raceway in row["raceways"])
        circuit = (
            ("none", ", ".join(row["failed_rules"]), "", "")
            if row["breaker_rating_a"] is None
            else (
                f"{_shown(row['breaker_rating_a'])} A",
                row["ungrounded_size"],
                row["grounding_size"],
                raceways,
            )
        )
        night = "" if row["kwh_per_night"] is None else _shown(row["kwh_per_night"])
        current = f"{_shown(row['charging_current_a'])} A"
        table.add_row(current, *circuit, _shown(row["power_kw"]), night)
    console.print(table)
    for row in answer["rows"]:
        if row["mark"] is not None:
            console.print(f"{_shown(row['charging_current_a'])} A: {row['mark']}.", highlight=False)
    lacking: dict[str, list[float]] = {}
    for row in answer["rows"]:
        rules = row["failed_rules"] or row["undetermined_rules"]
        if rules:
            words, _ = VERDICTS.get(row["verdict"], (row["verdict"], ""))
            lacking.setdefault(f"{words[0].lower()}{words[1:]} ({', '.join(rules)})", []).append(
                row["charging_current_a"]
            )
    for words, currents in lacking.items():
        console.print(f"{_amperes(currents)}: {words}.", highlight=False)
    for item in answer["interpretations"]:
        for other in item["other_readings"]:
            if other["currents_a"]:
                console.print(
                    f"[yellow]{item['name']}[/] is read as {item['reading']}; {other['reading']} changes the "
                    f"verdict at {_amperes(other['currents_a'])}.",
                    highlight=False,
                )
    if remarks:
        _show_remarks(console, answer)


def _findings(answer: Answer) -> Table:
    table = Table(title="Findings", show_lines=False)
    for heading in ("outcome", "rule", "finding", "section"):
        table.add_column(heading, overflow="fold")
    for item in answer["findings"]:
        if item["outcome"] != "not-applicable":
            section = item["citation"]["section"] if item["citation"] else ""
            outcome = item["outcome"] if item["force"] == "requirement" else f"{item['outcome']} (advice)"
            table.add_row(
                Text(outcome, style=OUTCOME_STYLES.get(item["outcome"], "")),
                item["rule"],
                item["message"],
                section,
            )
    return table


def _design(design: Answer, *, would_do: bool) -> Table:
    table = Table(title="The design that would do" if would_do else "Design", show_header=False)
    conductors = design["conductors"]
    ungrounded = conductors["ungrounded"]
    insulation = f", {ungrounded['insulation']}" if ungrounded["insulation"] else ""
    table.add_row("breaker", f"{_shown(design['breaker']['rating_a'])} A, {design['breaker']['poles']} poles")
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
            f"{_shown(raceway['fill_limit_percent'])} %"
            if raceway
            else ""
        )
        table.add_row(
            f"segment {index}",
            f"{segment['wiring_method']}{filled}{_depth(segment['cover'])}, ampacity "
            f"{_shown(segment['ampacity_a'])} A",
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
            f"{_needed(label['required'])}, {_shown(label['current_a'])} A: {label['why']}",
        )
    drop = design["voltage_drop"]
    if drop:
        table.add_row("voltage drop", f"{drop['volts']:.2f} V, {drop['percent']:.2f} %")
    table.add_row("conductors set by", design["governed_by"]["conductors"])
    return table


def _depth(cover: Answer | None) -> str:
    if cover is None:
        return ""
    return f", {_shown(cover['least']['value'])} {cover['least']['unit']} of cover under {cover['under']}"


def _amperes(currents: list[float]) -> str:
    return ", ".join(f"{_shown(current)} A" for current in currents)


def _needed(required: bool | None) -> str:
    return "undetermined" if required is None else "required" if required else "not required"


def _shown(value: object) -> str:
    return f"{value:.6g}" if isinstance(value, float) else str(value)
