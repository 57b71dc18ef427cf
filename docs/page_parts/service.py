"""The service's settings and problem types, from the code that reads and sends them."""

from pathlib import Path
from typing import Any

from branchwright.http_api.problems import KINDS
from branchwright.http_api.settings import PREFIX, Settings
from page_parts.markdown import blocks, code, long_code, table, words


def settings() -> str:
    """Return the environment variables with what each may hold and its default."""
    properties = Settings.model_json_schema()["properties"]
    return table(
        ("variable", "meaning", "allowed", "default"),
        [
            (
                long_code(f"{PREFIX}{name.upper()}"),
                words(field.description or ""),
                words(_allowed(properties[name])),
                _default(field.default),
            )
            for name, field in Settings.model_fields.items()
        ],
    )


def problems() -> str:
    """Return one section a problem type."""
    return blocks(
        *[
            blocks(
                f"## {kind.slug} {{ #{kind.slug} }}",
                f"Type {code(kind.type)}, status {kind.status}. **{words(kind.title)}.**",
                words(kind.meaning),
            )
            for kind in KINDS.values()
        ]
    )


def _allowed(schema: dict[str, Any]) -> str:
    """Return what a setting may hold, in words."""
    for option in schema.get("anyOf", ()):
        if option.get("type") != "null":
            return _allowed(option)
    if "enum" in schema:
        return ", ".join(str(value) for value in schema["enum"])
    if schema["type"] == "array":
        return "text, separated by commas"
    if schema["type"] == "boolean":
        return "true or false"
    if schema["type"] == "integer":
        least, greatest = schema.get("minimum"), schema.get("maximum")
        return f"{least} to {greatest}" if greatest is not None else f"at least {least}"
    return "text"


def _default(value: object) -> str:
    if value is None or value == ():
        return "not set"
    return code(str(value).lower() if isinstance(value, bool) else str(value))


def licence() -> str:
    """Return the licence's text, word for word."""
    text = (Path(__file__).parents[1] / "LICENSE.txt").read_text("utf-8")
    return f"```text\n{text.strip(chr(10))}\n```"
