"""Writes the resources of the SDK, blocking and asynchronous, from the operations of the contract."""

from __future__ import annotations

import textwrap
from pathlib import Path

from jinja2 import Environment, StrictUndefined
from operations import Argument, Operation, OtherBody


def resources(operations: tuple[Operation, ...]) -> str:
    """Return the source of the module, still to be formatted: classes by resource, methods as documented."""
    environment = Environment(trim_blocks=True, lstrip_blocks=True, undefined=StrictUndefined)  # noqa: S701, not HTML
    environment.filters.update(class_name=_class_name, docstring=_docstring)
    by_resource: dict[str, list[Operation]] = {}
    for operation in operations:
        by_resource.setdefault(operation.resource, []).append(operation)
    template = Path(__file__).with_name("resources.py.jinja").read_text("utf-8")
    return environment.from_string(template).render(by_resource=by_resource)


def _class_name(resource: str) -> str:
    return resource.title().replace("_", "")


def _docstring(documented: Operation | OtherBody) -> str:
    """Return the summary, the description and a line for each argument that the document describes."""
    paragraphs = [_filled(text) for text in documented.documentation.split("\n\n")]
    described = [*_source(documented), *map(_described, documented.arguments)]
    if any(described):
        paragraphs.append("\n".join(["Args:", *filter(None, described)]))
    text = "\n\n".join(paragraphs).replace("\\", "\\\\").replace('"""', '\\"\\"\\"')
    closing = "\n" if "\n" in text else ""
    return textwrap.indent(f'"""{text}{closing}"""', " " * 8, lambda line: bool(line.strip())).lstrip()


def _source(documented: Operation | OtherBody) -> list[str]:
    return (
        [_filled(f"  source: {documented.description}", "    ")] if isinstance(documented, OtherBody) else []
    )


def _described(argument: Argument) -> str:
    return _filled(f"  {argument.name}: {argument.description}", "    ") if argument.description else ""


def _filled(text: str, indent: str = "") -> str:
    return textwrap.fill(text.strip("\n"), 96, subsequent_indent=indent)
