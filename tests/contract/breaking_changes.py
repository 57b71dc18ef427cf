"""What of a released OpenAPI 3.1 document a later one breaks: version 1 of the contract only adds.

    python tests/contract/breaking_changes.py openapi/released/v1-0.1.0.json openapi/v1.json

prints one line for each break and exits with 1; with 0 where there is none, with 2 where a file cannot be read.
"""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Iterator, Mapping
from pathlib import Path

if __name__ == "__main__":  # run as a script, it stands in no package yet
    sys.path.insert(0, str(Path(__file__).parents[2]))

from tests.contract.schema_changes import Break, Json, Schemas, followed, not_understood, stated

_METHODS = ("get", "put", "post", "delete", "options", "head", "patch", "trace")


def breaking_changes(released: Json, new: Json) -> list[Break]:
    """Each break of the released document once, in its own order."""
    found = [*not_understood(released), *not_understood(new), *_Contract(released, new).breaks()]
    return list(dict.fromkeys(found))


class _Contract:
    """Holds the operations of one document against those of another."""

    def __init__(self, released: Json, new: Json) -> None:
        self._released, self._new = released, new
        self._requests = Schemas(released, new, requests=True)
        self._answers = Schemas(new, released, requests=False)

    def breaks(self) -> Iterator[Break]:
        for path, item in self._released["paths"].items():
            for method in (method for method in _METHODS if method in item):
                place = f"{method.upper()} {path}"
                new_item = self._new["paths"].get(path, {})
                if method in new_item:
                    yield from self._operation(place, item, new_item, method)
                else:
                    yield Break(place, "removed")
        schemas = self._new.get("components", {}).get("schemas", {})
        for name in self._released.get("components", {}).get("schemas", {}):
            if name not in schemas:
                yield Break(f"schema {name}", "removed; the SDK has a class of this name")

    def _operation(self, place: str, old_item: Json, new_item: Json, method: str) -> Iterator[Break]:
        old, new = old_item[method], new_item[method]
        names = [operation.get("operationId") for operation in (old, new)]
        if names[0] != names[1]:
            yield Break(place, f"operationId was {names[0]} and is {stated(names[1])}")
        methods = [_client_method(operation) for operation in (old, new)]
        if methods[0] not in (None, methods[1]):
            yield Break(place, f"the SDK's method was {methods[0]} and is {stated(methods[1])}")
        yield from self._security(place, old, new)
        yield from self._parameters(
            place,
            self._parameters_of(self._released, old_item, old),
            self._parameters_of(self._new, new_item, new),
        )
        yield from self._body(place, old.get("requestBody"), new.get("requestBody"))
        for status, answer in old["responses"].items():
            where = f"{place}, status {status}"
            if status in new["responses"]:
                yield from self._answer(where, answer, new["responses"][status])
            else:
                yield Break(where, "removed")

    def _security(self, place: str, old: Json, new: Json) -> Iterator[Break]:
        """Each way to be let in still lets in, by the same scheme and without more scopes."""
        ways = _ways_in(new, self._new)
        for way in _ways_in(old, self._released):
            if not any(_is_enough(way, asked) for asked in ways):
                asked = " or ".join(" and ".join(other) for other in ways)
                yield Break(
                    place, f"{' and '.join(way) or 'no key'} was enough, and now {asked} is asked for"
                )
            for name in way:
                if _scheme(name, self._released) != _scheme(name, self._new):
                    yield Break(f"security scheme {name}", "changed")

    @staticmethod
    def _parameters_of(document: Json, *parts: Json) -> dict[str, Json]:
        stated = [followed(one, document) for part in parts for one in part.get("parameters", [])]
        return {f"{one['in']} parameter {one['name']}": one for one in stated}

    def _parameters(self, place: str, old: dict[str, Json], new: dict[str, Json]) -> Iterator[Break]:
        for name, parameter in old.items():
            where = f"{place}, {name}"
            now = new.get(name)
            if now is None:
                yield Break(where, "removed")
                continue
            if now.get("required") and not parameter.get("required"):
                yield Break(where, "is required now")
            for keyword in ("style", "explode", "allowReserved", "content"):
                if parameter.get(keyword) != now.get(keyword):
                    yield Break(where, f"{keyword} changed")
            yield from self._requests.breaks(where, parameter.get("schema", True), now.get("schema", True))
        for name, parameter in new.items():
            if name not in old and parameter.get("required"):
                yield Break(f"{place}, {name}", "is new and required")

    def _body(self, place: str, old: Json | None, new: Json | None) -> Iterator[Break]:
        where = f"{place}, request body"
        old, new = followed(old or {}, self._released), followed(new or {}, self._new)
        if old and not new:
            yield Break(where, "removed")
            return
        if new.get("required") and not old.get("required"):
            yield Break(where, "is required now")
        yield from self._contents(where, old, new, self._requests)

    def _answer(self, place: str, old: Json, new: Json) -> Iterator[Break]:
        old, new = followed(old, self._released), followed(new, self._new)
        for name, header in old.get("headers", {}).items():
            where = f"{place}, header {name}"
            if name not in new.get("headers", {}):
                yield Break(where, "removed")
                continue
            header, now = followed(header, self._released), followed(new["headers"][name], self._new)
            if header.get("required") and not now.get("required"):
                yield Break(where, "may be missing now")
            yield from self._answers.breaks(where, header.get("schema", True), now.get("schema", True))
        yield from self._contents(place, old, new, self._answers)

    def _contents(self, place: str, old: Json, new: Json, schemas: Schemas) -> Iterator[Break]:
        for media_type, content in old.get("content", {}).items():
            where = f"{place} as {media_type}"
            now = new.get("content", {}).get(media_type)
            if now is None:
                yield Break(where, "removed")
            else:
                yield from schemas.breaks(where, content.get("schema", True), now.get("schema", True))


def _client_method(operation: Json) -> str | None:
    client = operation.get("x-client")
    return client and f"client.{client['resource']}.{client['method']}"


def _ways_in(operation: Json, document: Json) -> list[dict[str, list[str]]]:
    """The ways to be let in, each with its schemes and their scopes; one without schemes asks for nothing."""
    return operation.get("security", document.get("security")) or [{}]


def _is_enough(way: Mapping[str, list[str]], asked: Mapping[str, list[str]]) -> bool:
    return all(name in way and set(scopes) <= set(way[name]) for name, scopes in asked.items())


def _scheme(name: str, document: Json) -> Json:
    scheme = document.get("components", {}).get("securitySchemes", {}).get(name, {})
    return {key: value for key, value in scheme.items() if key not in ("description", "bearerFormat")}


def main(arguments: list[str] | None = None) -> int:
    """Print the breaks between two files; return the exit status."""
    parser = argparse.ArgumentParser(
        description="What of a released OpenAPI document does a later one break?"
    )
    parser.add_argument("released", type=Path, help="the released document")
    parser.add_argument("new", type=Path, help="the later document")
    options = parser.parse_args(arguments)
    documents: list[Json] = []
    for path in (options.released, options.new):
        try:
            document = json.loads(path.read_text("utf-8"))
        except (OSError, ValueError) as error:
            print(f"{path} cannot be read: {error}", file=sys.stderr)
            return 2
        if not isinstance(document, dict) or not isinstance(document.get("paths"), dict):
            print(f"{path} is no OpenAPI document: it has no paths", file=sys.stderr)
            return 2
        documents.append(document)
    found = breaking_changes(*documents)
    for one in found:
        print(one)
    if not found:
        print(f"{options.new} breaks nothing of {options.released}.")
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main())
