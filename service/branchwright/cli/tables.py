"""What every answer shows on a terminal: its verdict, its findings, its working, what to verify."""

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


def show_judged(console: Console, answer: Answer) -> None:
    """Print the verdict, the findings, and the readings under which the verdict would be another."""
    show_verdict(console, answer)
    show_findings(console, answer)


def show_verdict(console: Console, answer: Answer) -> None:
    """Print the verdict, under the edition that it was found by where the question has to do with one."""
    words, style = VERDICTS.get(answer["verdict"], (answer["verdict"], ""))
    edition = (answer["edition"] or "no edition stated") if "edition" in answer else None
    console.print(Panel(Text(words, style=style), title=edition, expand=False))


def show_findings(console: Console, answer: Answer) -> None:
    """Print the findings, and the readings under which the verdict would be another."""
    console.print(findings_table(answer))
    for item in answer.get("interpretations", ()):
        if item["changes_verdict"]:
            others = ", ".join(f"{other['reading']}: {other['verdict']}" for other in item["other_readings"])
            console.print(f"[yellow]{item['name']}[/] is read as {item['reading']}; by {others}.")


def findings_table(answer: Answer) -> Table:
    """Return the findings of the rules that apply, with their sections where any rests on one."""
    items = [item for item in answer["findings"] if item["outcome"] != "not-applicable"]
    cites = any(item["citation"] for item in items)
    table = headed_table("Findings", "outcome", "rule", "finding", *(["section"] if cites else []))
    for item in items:
        outcome = item["outcome"] if item["force"] == "requirement" else f"{item['outcome']} (advice)"
        section = item["citation"]["section"] if item["citation"] else ""
        table.add_row(
            Text(outcome, style=OUTCOME_STYLES.get(item["outcome"], "")),
            item["rule"],
            item["message"],
            *([section] if cites else []),
        )
    return table


def show_remarks(console: Console, answer: Answer) -> None:
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
    table = headed_table(
        f"The first {wanted} of {len(answer['steps'])} steps; anyone can replay them",
        *("quantity", "expression", "inputs", "value", "section"),
    )
    for step in answer["steps"][:wanted]:
        inputs = ", ".join(f"{name} = {shown(item['value'])}" for name, item in step["inputs"].items())
        section = step["citation"]["section"] if step["citation"] else ""
        value = shown(step["value"]) + ("" if step["unit"] in ("1", "size", "text") else f" {step['unit']}")
        table.add_row(step["quantity"], step["expression"], inputs, value, section)
    console.print(table)


def headed_table(title: str, *headings: str) -> Table:
    """Return a table with a title and a heading over each column, whose cells are folded and never cut."""
    table = Table(title=title)
    for heading in headings:
        table.add_column(heading, overflow="fold")
    return table


def amperes(currents: list[float]) -> str:
    """Return currents as text."""
    return ", ".join(f"{shown(current)} A" for current in currents)


def shown(value: object) -> str:
    """Return a value as text, a number to six digits."""
    return f"{value:.6g}" if isinstance(value, float) else str(value)
