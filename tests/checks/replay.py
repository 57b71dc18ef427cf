"""Recomputes an answer from its steps alone, as a reader with a pencil and the printed tables would.

Imports nothing of the service: it parses the expressions itself, reads the tables and provisions of the
codebook from their files, and follows every input to where it says that it comes from.
"""

import csv
import math
import re
import tomllib
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

DEMO = Path(__file__).parents[2] / "service" / "branchwright" / "jobs" / "installation" / "data"
DATA = Path(__file__).parents[2] / "service" / "branchwright" / "codebook" / "data" / "nec"
RELATIVE = 1e-9
TEXT_UNITS = ("text", "size")

Value = float | str


class Disagreement(AssertionError):
    """A step does not say what its expression or its origins come to."""


@dataclass(frozen=True)
class PrintedTable:
    """One table of one edition, read from its two files."""

    name: str
    keys: list[str]
    match: str
    units: dict[str, str]
    rows: list[dict[str, str]]


@cache
def printed_table(name: str, edition: str) -> PrintedTable:
    folder = DATA / "tables" / name
    about = tomllib.loads((folder / "about.toml").read_text(encoding="utf-8"))
    record = about["editions"][edition]
    while "same_as" in record:
        record = about["editions"][record["same_as"]]
    with (folder / record["rows"]).open(encoding="utf-8", newline="") as lines:
        rows = list(csv.DictReader(lines))
    units = {column: item["unit"] for column, item in about["columns"].items()}
    return PrintedTable(name, about["row_keys"], about["match"], units, rows)


@cache
def printed_provision(concept: str, edition: str) -> dict[str, tuple[Value, str]]:
    """The values of a provision with their units."""
    about = tomllib.loads((DATA / "provisions" / f"{concept}.toml").read_text(encoding="utf-8"))
    given = about["editions"][edition]["values"]
    return {name: (given[name], item["unit"]) for name, item in about["values"].items() if name in given}


def as_printed(value: Value) -> str:
    """A key as a table prints it: whole numbers without a decimal point."""
    if isinstance(value, str):
        return value
    return str(int(value)) if float(value).is_integer() else repr(float(value))


def same_key(cell: str, key: Value) -> bool:
    """Whether a printed key is the one asked for; numbers are compared as numbers."""
    return cell == key if isinstance(key, str) else cell != "" and float(cell) == key


def parsed(table: PrintedTable, column: str, cell: str) -> Value:
    if cell == "":
        raise Disagreement(f"{table.name} prints nothing in column {column} there")
    return cell if table.units[column] in TEXT_UNITS else float(cell)


def look_up(name: str, arguments: list[Value], edition: str) -> Value:
    """Read a table: the row keys first, then the parts of the column's name, if more than one can be meant."""
    table = printed_table(name, edition)
    keys, parts = arguments[: len(table.keys)], arguments[len(table.keys) :]
    values = [column for column in table.units if column not in table.keys]
    if parts:
        column = "_".join(as_printed(part) for part in parts)
    elif len(values) <= 1:
        column = values[0] if values else table.keys[-1]
    else:
        raise Disagreement(f"{name} has several columns, and the look-up names none of {values}")
    if column not in table.units:
        raise Disagreement(f"{name} has no column {column}")
    for row in table.rows:
        *exact, last = table.keys
        if not all(same_key(row[key], wanted) for key, wanted in zip(exact, keys, strict=False)):
            continue
        cell, wanted = row[last], keys[-1]
        if table.match == "first-at-least":
            if isinstance(wanted, str):
                raise Disagreement(f"{name} is looked up by a number, not by {wanted!r}")
            found = cell == "" or float(cell) >= wanted
        else:
            found = same_key(cell, wanted)
        if found:
            return parsed(table, column, row[column])
    raise Disagreement(f"{name} has no row for {keys}")


FUNCTIONS = {
    "sqrt": math.sqrt,
    "floor": lambda number: float(math.floor(number)),
    "ceil": lambda number: float(math.ceil(number)),
    "round": lambda number, digits=0.0: round(number, int(digits)),
    "min": min,
    "max": max,
}
TOKENS = re.compile(r"\s*(?:(\d+(?:\.\d+)?(?:[eE][+-]?\d+)?)|([A-Za-z_][A-Za-z0-9_]*)|([-+*/^(),]))")


class Expression:
    """A recursive-descent parser that evaluates as it reads.

    sum: product (("+"|"-") product)*; product: sign (("*"|"/") sign)*; sign: "-" sign | power;
    power: atom ("^" sign)?; atom: number | name | name "(" arguments ")" | "(" sum ")".
    """

    def __init__(self, text: str, names: dict[str, Value], edition: str) -> None:
        self.text = text
        self.names = names
        self.edition = edition
        self.used: set[str] = set()
        self.tokens: list[str] = []
        place = 0
        while place < len(text.rstrip()):
            found = TOKENS.match(text, place)
            if found is None:
                raise Disagreement(f"{text!r} leaves the grammar at {text[place:]!r}")
            self.tokens.append(found.group().strip())
            place = found.end()
        self.at = 0

    def evaluate(self) -> Value:
        value = self.sum()
        if self.at != len(self.tokens):
            raise Disagreement(f"{self.text!r} goes on after its end: {self.tokens[self.at :]}")
        return value

    def peek(self) -> str:
        return self.tokens[self.at] if self.at < len(self.tokens) else ""

    def take(self, expected: str = "") -> str:
        token = self.peek()
        if not token or (expected and token != expected):
            raise Disagreement(f"{self.text!r}: {expected or 'something'} is missing before {token!r}")
        self.at += 1
        return token

    def number(self, value: Value) -> float:
        if isinstance(value, str):
            raise Disagreement(f"{self.text!r} computes with the name {value!r}")
        return value

    def sum(self) -> Value:
        value = self.product()
        while self.peek() in ("+", "-"):
            sign = 1 if self.take() == "+" else -1
            value = self.number(value) + sign * self.number(self.product())
        return value

    def product(self) -> Value:
        value = self.sign()
        while self.peek() in ("*", "/"):
            if self.take() == "*":
                value = self.number(value) * self.number(self.sign())
            else:
                value = self.number(value) / self.number(self.sign())
        return value

    def sign(self) -> Value:
        if self.peek() == "-":
            self.take()
            return -self.number(self.sign())
        return self.power()

    def power(self) -> Value:
        base = self.atom()
        if self.peek() != "^":
            return base
        self.take()
        return float(self.number(base) ** self.number(self.sign()))

    def atom(self) -> Value:
        word = self.take()
        if word == "(":
            value = self.sum()
            self.take(")")
            return value
        if word[0].isdigit():
            return float(word)
        if word == "lookup" and self.peek() == "(":
            return self.lookup()
        if word in FUNCTIONS and self.peek() == "(":
            return FUNCTIONS[word](*[self.number(value) for value in self.arguments()])
        if word not in self.names:
            raise Disagreement(f"{self.text!r} uses {word}, which is no input")
        self.used.add(word)
        return self.names[word]

    def arguments(self, opening: str = "(") -> list[Value]:
        self.take(opening)
        found = [self.sum()]
        while self.peek() == ",":
            self.take()
            found.append(self.sum())
        self.take(")")
        return found

    def lookup(self) -> Value:
        self.take("(")
        table = self.take()
        return look_up(table, self.arguments(","), self.edition)


def evaluate(expression: str, names: dict[str, Value], edition: str = "") -> Value:
    """Return what an expression comes to; Disagreement where it leaves the grammar or a name is unknown."""
    return Expression(expression, names, edition).evaluate()


def at_pointer(document: Any, pointer: str) -> Any:
    """Return what a document has at a JSON pointer (RFC 6901)."""
    here = document
    for token in pointer.split("/")[1:]:
        name = token.replace("~1", "/").replace("~0", "~")
        try:
            here = here[int(name)] if isinstance(here, list) else here[name]
        except (KeyError, IndexError, ValueError, TypeError):
            raise Disagreement(f"nothing is at {pointer}") from None
    return here


def at_codebook(path: str, edition: str) -> tuple[Value, str]:
    """Return the cell or value at <table or provision>/<row keys>/<column>, and its unit."""
    name, *rest = [part.replace("~1", "/").replace("~0", "~") for part in path.split("/")]
    folder = name.replace("-", "_")
    if not (DATA / "tables" / folder).is_dir():
        if len(rest) != 1:
            raise Disagreement(f"codebook:{path} is neither a table nor one value of a provision")
        return printed_provision(name, edition)[rest[0]]
    table = printed_table(folder, edition)
    *keys, column = rest
    if len(keys) != len(table.keys):
        raise Disagreement(f"codebook:{path} does not give the keys {table.keys}")
    rows = [row for row in table.rows if [row[key] for key in table.keys] == keys]
    if len(rows) != 1:
        raise Disagreement(f"codebook:{path} names {len(rows)} rows")
    return parsed(table, column, rows[0][column]), table.units[column]


@cache
def demo(name: str) -> dict[str, Any]:
    """The demo price book or labour table, which stands in where a request states none."""
    return tomllib.loads((DEMO / f"{name}.toml").read_text(encoding="utf-8"))


def at_price_book(path: str, request: dict[str, Any], money: str) -> tuple[Any, str]:
    """Return the price at <key>/<end>, and its unit; keys have slashes of their own."""
    key, _, end = path.rpartition("/")
    prices = (request.get("price_book") or demo("price-book"))["prices"]
    if key not in prices:
        raise Disagreement(f"the price book has no {key}")
    return prices[key][end], f"{money}/{prices[key]['unit']}"


def at_labour_table(path: str, request: dict[str, Any], money: str) -> tuple[Any, str]:
    """Return the hours of a task, the hourly rate or the factor of a condition, and its unit."""
    table = request.get("labour_table") or demo("labour-table")
    key, _, field = path.rpartition("/")
    if key == "hourly_rate":
        return table[key][field], f"{money}/h"
    kind, _, condition = key.partition("/")
    if kind == "condition_factors":
        return table[kind][condition][field], "1"
    if key not in table["tasks"]:
        raise Disagreement(f"the labour table has no {key}")
    return table["tasks"][key][field], "h"


DECIMAL_TEXT = re.compile(r"-?[0-9]+(\.[0-9]+)?")


def as_number(origin: Any, given: Any) -> Any:
    """Money stands in JSON as decimal text: where a step takes a number of it, the number that it says."""
    if isinstance(origin, str) and not isinstance(given, str) and DECIMAL_TEXT.fullmatch(origin):
        return float(origin)
    return origin


def close(one: Any, other: Any) -> bool:
    if isinstance(one, str) or isinstance(other, str):
        return bool(one == other)
    return math.isclose(one, other, rel_tol=RELATIVE, abs_tol=RELATIVE)


def replay(answer: dict[str, Any], request: dict[str, Any]) -> None:
    """Follow every input of every step to its origin and evaluate every expression; Disagreement where one is off."""
    # Answers about cost judge by no edition of the code.
    edition = answer.get("edition", "")
    earlier: dict[str, dict[str, Any]] = {}
    for step in answer["steps"]:
        where = f"step {step['id']}"
        if step["id"] in earlier:
            raise Disagreement(f"{where} is there twice")
        for name, given in step["inputs"].items():
            kind, _, place = given["from"].partition(":")
            unit = given["unit"]
            if kind == "request":
                origin: Any = at_pointer(request, place)
                if isinstance(origin, bool) or not isinstance(origin, (int, float, str)):
                    raise Disagreement(f"{where}: {given['from']} is {origin!r}")
            elif kind == "series":
                origin = at_pointer(answer["series"], place)
            elif kind == "bill":
                origin = at_pointer(answer["worked_bill"], place)
            elif kind == "answer":
                origin = at_pointer(answer, place)
            elif kind == "design":
                origin = at_pointer(answer["design"], place)
            elif kind in ("price-book", "labour"):
                money = answer["totals"]["currency"] or "money"
                look = at_price_book if kind == "price-book" else at_labour_table
                origin, unit = look(place, request, money)
            elif kind == "codebook":
                origin, unit = at_codebook(place, edition)
            elif kind == "step":
                if place not in earlier:
                    raise Disagreement(f"{where}: {name} comes from {place}, which is no earlier step")
                origin, unit = earlier[place]["value"], earlier[place]["unit"]
            else:
                raise Disagreement(f"{where}: {given['from']} is no origin")
            origin = as_number(origin, given["value"])
            if not close(origin, given["value"]) or unit != given["unit"]:
                raise Disagreement(
                    f"{where}: {name} is {given['value']!r} {given['unit']}; {given['from']} is {origin!r} {unit}"
                )
        names = {name: given["value"] for name, given in step["inputs"].items()}
        expression = Expression(step["expression"], names, edition)
        value = expression.evaluate()
        if not close(value, step["value"]):
            raise Disagreement(f"{where}: {step['expression']} is {value!r}, not {step['value']!r}")
        if expression.used != set(names):
            raise Disagreement(
                f"{where}: inputs that the expression leaves out: {set(names) - expression.used}"
            )
        earlier[step["id"]] = step
