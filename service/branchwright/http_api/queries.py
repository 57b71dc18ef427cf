"""Reading the query of a question strictly: every field known, and each given once."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from functools import cached_property

from pydantic import BaseModel, TypeAdapter, ValidationError

from branchwright.http_api.contract import without_null
from branchwright.http_api.problems import INVALID_REQUEST, LONGEST_INPUT, InvalidField, ProblemError
from branchwright.http_api.validation import parameter_problem


class QueryReader:
    """Turns the query of a request into its model, which takes texts."""

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
            query: BaseModel = self._validate(given)
        except ValidationError as error:
            details = [
                {**detail, "loc": ("query", *detail["loc"])}
                for detail in error.errors(include_url=False, include_input=False)
            ]
            raise parameter_problem(details, given, self._schema, parameters_in="query") from None
        return query

    @cached_property
    def _schema(self) -> Mapping[str, object]:
        """The JSON Schema of the query, made when the first one does not fit it."""
        schema = self._model.model_json_schema()
        return schema | {
            "properties": {name: without_null(field) for name, field in schema["properties"].items()}
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
