"""The places of a request by its published schema: every field once, and what may and may not stand there."""

import copy
import re
from collections.abc import Iterator
from dataclasses import dataclass
from math import ceil
from random import Random
from typing import Any

from tests.contract.document import Json, resolved

ABSENT = object()
_SMALLEST_FLOAT = 5e-324
# Texts of the forms that the contract asks for: the end of a run, a date and time with its offset, a time of day, a
# date of a year or of every year (some of them of no calendar), codes of currencies, countries and their parts.
_FORMED = (
    *("breaker", "charger", "receptacle", "points/0", "points/19"),
    *("2025-01-14T17:00:00-06:00", "2024-02-29T23:59:59Z", "17:30", "00:00", "23:45"),
    *("2027-01-01", "2027-07-05", "2028-02-29", "2027-02-30", "1900-01-01", "2199-12-31"),
    *("06-01", "12-31", "02-29", "02-30", "01-01"),
    *("US", "ZZ", "CO", "USD", "JPY", "XXX"),
)
MAP_KEY = "pull"
"""The key of the one member that a filled map has."""


@dataclass(frozen=True)
class Place:
    """A field or list item of a request: where it is, its schemas (null aside), whether it may be null or left out."""

    pointer: tuple[str | int, ...]
    branches: tuple[Json, ...]
    nullable: bool
    required: bool

    @property
    def text(self) -> str:
        """The place as a JSON pointer; no field of ours needs escaping."""
        return "".join(f"/{token}" for token in self.pointer)

    @property
    def kind(self) -> str:
        """The one JSON type that may stand here beside null."""
        (kind,) = {branch["type"] for branch in self.branches}
        return str(kind)

    @property
    def schema(self) -> Json:
        """The one schema that holds here beside null."""
        (schema,) = self.branches
        return schema


def branches_of(schema: Json) -> tuple[tuple[Json, ...], bool]:
    """The alternatives of a schema, references resolved, and whether null is another."""
    alternatives = _alternatives(schema)
    found = tuple(branch for branch in alternatives if branch.get("type") != "null")
    return found, len(found) < len(alternatives)


def _alternatives(schema: Json) -> list[Json]:
    schema = resolved(schema)
    branches = schema.get("anyOf", schema.get("oneOf"))
    if branches is None:
        return [schema]
    return [alternative for branch in branches for alternative in _alternatives(branch)]


def filled(schema: Json, choice: int = 0) -> Any:
    """A value with every optional field present. ``choice`` picks among alternatives and closed lists."""
    branches, _ = branches_of(schema)
    schema = branches[choice % len(branches)]
    if "const" in schema:
        return schema["const"]
    if "enum" in schema:
        return schema["enum"][choice % len(schema["enum"])]
    match schema["type"]:
        case "object" if is_map(schema):
            return {MAP_KEY: filled(schema["additionalProperties"], choice)}
        case "object":
            return {name: filled(inner, choice) for name, inner in schema["properties"].items()}
        case "array":
            return [filled(schema["items"], choice) for _ in range(max(2, schema.get("minItems", 0)))]
        case "boolean":
            return bool(choice % 2)
        case "integer":
            return min(max(1, schema.get("minimum", 1)), schema.get("maximum", 1))
        case "number":
            low, high = bounds(schema)
            return 48 if low <= 48 <= high else high
        case "string":
            if schema.get("format") == "decimal":
                return ("0.31", "12")[choice % 2]
            return formed(schema["pattern"])[0] if "pattern" in schema else "text"
        case other:
            raise AssertionError(f"no value is known for the type {other}")


def is_map(schema: Json) -> bool:
    """Whether an object has whatever names its caller gives, all with values of one kind."""
    return isinstance(schema.get("additionalProperties"), dict) and "properties" not in schema


def decimal_text(pattern: str, random: Random) -> str:
    """Text of a decimal that fits a pattern: few digits, as many as may be, zero, below zero where that may be."""
    for _ in range(100):
        whole = str(random.choice((0, 1, 9, random.randint(0, 99), 10 ** random.randint(1, 12) - 1)))
        digits = random.choice((0, 0, 2, 4, 8))
        fraction = "".join(random.choice("0123456789") for _ in range(digits))
        text = random.choice(("", "", "", "-")) + whole + (f".{fraction}" if digits else "")
        if re.search(pattern, text):
            return text
    raise AssertionError(f"no decimal is known for {pattern}")


def formed(pattern: str) -> list[str]:
    """Texts of the form that a pattern asks for."""
    found = [text for text in _FORMED if re.search(pattern, text)]
    assert found, f"no text is known for {pattern}"
    return found


def bounds(schema: Json) -> tuple[float, float]:
    """The least and the greatest number that a schema allows."""
    low = schema.get("minimum", -1e308)
    if "exclusiveMinimum" in schema:
        assert schema["exclusiveMinimum"] == 0, "only zero is known as an open bound"
        low = _SMALLEST_FLOAT
    assert "exclusiveMaximum" not in schema
    return low, schema.get("maximum", 1e308)


def places(
    schema: Json,
    instance: object,
    pointer: tuple[str | int, ...] = (),
    *,
    required: bool = True,
    closed: frozenset[str] = frozenset(),
) -> Iterator[Place]:
    """Every place of an instance, the instance itself first; of a list only the first item.

    What is within the models named in ``closed`` is left out.
    """
    branches, nullable = branches_of(schema)
    yield Place(pointer, branches, nullable, required)
    if isinstance(instance, dict):
        branch = _meant(branches, instance)
        if branch.get("title") in closed:
            return
        for name, inner in instance.items():
            if is_map(branch):
                yield from places(branch["additionalProperties"], inner, (*pointer, name), closed=closed)
                continue
            needed = name in branch.get("required", [])
            yield from places(
                branch["properties"][name], inner, (*pointer, name), required=needed, closed=closed
            )
    elif isinstance(instance, list) and instance:
        yield from places(branches[0]["items"], instance[0], (*pointer, 0), closed=closed)


def models_in(schema: Json) -> frozenset[str]:
    """The names of all models that a schema refers to, directly or not."""
    found: set[str] = set()
    waiting: list[Any] = [schema]
    while waiting:
        node = waiting.pop()
        if isinstance(node, dict):
            if "$ref" in node and node["$ref"] not in found:
                found.add(node["$ref"])
                waiting.append(resolved(node))
            waiting += node.values()
        elif isinstance(node, list):
            waiting += node
    return frozenset(reference.rpartition("/")[2] for reference in found)


def at(instance: Any, place: Place) -> Any:
    """What stands at a place."""
    for token in place.pointer:
        instance = instance[token]
    return instance


def changed(instance: Any, place: Place, value: object) -> Any:
    """A copy of the instance with another value at a place, or without it where the value is ABSENT."""
    found = copy.deepcopy(instance)
    if not place.pointer:
        return value
    owner = found
    for token in place.pointer[:-1]:
        owner = owner[token]
    if value is ABSENT:
        del owner[place.pointer[-1]]
    else:
        owner[place.pointer[-1]] = value
    return found


def drawn(schema: Json, random: Random) -> Any:
    """Any value that fits a schema, bounds and nulls more often than chance would have them."""
    branches, nullable = branches_of(schema)
    if nullable and random.random() < 0.2:
        return None
    schema = random.choice(branches)
    if "const" in schema:
        return schema["const"]
    if "enum" in schema:
        return random.choice(schema["enum"])
    match schema["type"]:
        case "object" if is_map(schema):
            keys = random.sample(
                (MAP_KEY, "a/b~c", "x" * 200, "raceway/emt/1/2", "\x00"), random.randint(0, 3)
            )
            return {key: drawn(schema["additionalProperties"], random) for key in keys}
        case "object":
            return {
                name: drawn(inner, random)
                for name, inner in schema["properties"].items()
                if name in schema.get("required", []) or random.random() < 0.6
            }
        case "array":
            least = schema.get("minItems", 0)
            length = random.randint(least, max(least, min(schema["maxItems"], 3)))
            return [drawn(schema["items"], random) for _ in range(length)]
        case "boolean":
            return random.random() < 0.5
        case "integer":
            low, high = schema["minimum"], schema["maximum"]
            return random.choice(
                (low, high, random.randint(low, high), random.randint(low, min(high, low + 4)))
            )
        case "number":
            low, high = bounds(schema)
            near = random.uniform(max(low, 0), min(high, 100))
            return random.choice((low, high, random.uniform(low, high), near, float(ceil(near))))
        case "string":
            if schema.get("format") == "decimal":
                return decimal_text(schema["pattern"], random)
            if "pattern" in schema:
                return random.choice(formed(schema["pattern"]))
            return random.choice(("a", "\x00", "Prästgård €😀", "x" * schema["maxLength"]))
        case other:
            raise AssertionError(f"no value is known for the type {other}")


def varied(schema: Json, example: Json, random: Random) -> Json:
    """A documented example with up to three of its places, or of what it leaves out, drawn afresh."""
    found = copy.deepcopy(example)
    for _ in range(random.randint(1, 3)):
        inner_schema, instance = schema, found
        while True:
            branches, _ = branches_of(inner_schema)
            branch = _meant(branches, instance)
            if is_map(branch):
                name = random.choice([*instance, MAP_KEY])
                inner = branch["additionalProperties"]
            else:
                name = random.choice(list(branch["properties"]))
                inner = branch["properties"][name]
            if isinstance(instance.get(name), list) and instance[name]:
                index = random.randrange(len(instance[name]))
                if not isinstance(instance[name][index], dict):
                    break
                inner_schema, instance = branches_of(inner)[0][0]["items"], instance[name][index]
            elif isinstance(instance.get(name), dict) and random.random() < 0.8:
                inner_schema, instance = inner, instance[name]
            else:
                instance[name] = drawn(inner, random)
                break
    return found


def _meant(branches: tuple[Json, ...], instance: Json) -> Json:
    """The branch of a tagged union that an instance is of, or the only branch."""
    if len(branches) == 1:
        return branches[0]
    (branch,) = [
        branch for branch in branches if branch["properties"]["kind"].get("const") == instance["kind"]
    ]
    return branch
