"""Reading the query of a question strictly: every field known, each once, and each of its own type."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Mapping, Sequence
from functools import cached_property
from typing import Any, Final, cast

from pydantic import BaseModel, TypeAdapter, ValidationError

from branchwright.http_api.problems import INVALID_REQUEST, LONGEST_INPUT, InvalidField, ProblemError
from branchwright.http_api.validation import parameter_problem

# RFC 8259, section 6: what is a number in a body is one in a query.
_JSON_NUMBER: Final = re.compile(r"-?(0|[1-9][0-9]{0,20})(\.[0-9]{1,20})?([eE][+-]?[0-9]{1,2})?", re.ASCII)
_WORDS: Final = {"true": True, "false": False}


class QueryReader:
    """Turns the query of a request into its model, whose fields are texts, numbers and booleans."""

    def __init__(self, model: type[BaseModel]) -> None:
        """Read queries of this model."""
        self._model = model
        self._validate = TypeAdapter(model).validator.validate_python

    def __call__(self, fields: Sequence[tuple[str, str]]) -> BaseModel:
        """The model that the fields of a query fit, as they were sent: name and text.

        Raises:
            ProblemError: 422, naming each field that is unknown, given twice or of another type.
        """
        given = dict(fields)
        if len(given) < len(fields):
            raise _repeated(
                [name for name, count in Counter(name for name, _ in fields).items() if count > 1]
            )
        try:
            query: BaseModel = self._validate({name: self._typed(name, text) for name, text in fields})
        except ValidationError as error:
            details = [
                {**detail, "loc": ("query", *detail["loc"])}
                for detail in error.errors(include_url=False, include_input=False)
            ]
            raise parameter_problem(details, given, self._schema, parameters_in="query") from None
        return query

    def _typed(self, name: str, text: str) -> object:
        """The value that a text stands for, by the types that its field has; the text where it is none of them."""
        types = self._types.get(name, frozenset())
        if "boolean" in types and text in _WORDS:
            return _WORDS[text]
        if types & {"integer", "number"} and _JSON_NUMBER.fullmatch(text):
            return (
                float(text) if types.isdisjoint({"integer"}) or not text.lstrip("-").isdigit() else int(text)
            )
        return text

    @cached_property
    def _schema(self) -> Mapping[str, Any]:
        return self._model.model_json_schema()

    @cached_property
    def _types(self) -> Mapping[str, frozenset[str]]:
        """The JSON types of each field."""
        return {
            name: frozenset(
                cast("str", branch["type"]) for branch in field.get("anyOf", [field]) if "type" in branch
            )
            for name, field in self._schema["properties"].items()
        }


def _repeated(names: Sequence[str]) -> ProblemError:
    errors = [
        InvalidField(
            pointer=f"query:{name[:LONGEST_INPUT]}",
            message=f"'{name[:LONGEST_INPUT]}' is given more than once.",
            code="invalid",
            given=None,
            allowed=["one value"],
        )
        for name in names
    ]
    return ProblemError(INVALID_REQUEST, f"In the query, {errors[0].message}", errors=errors)
