# Generated from the OpenAPI document by sdk/generator. Do not edit.
"""What the service answers, as methods: each resource for blocking and for asynchronous callers."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Literal

from .answers import raw_later_method, raw_method
from .bodies import OMITTED, Omitted
from .transport import AsyncTransport, Transport

if TYPE_CHECKING:
    from pydantic import BaseModel

    from . import mappings, models


class Circuits:
    """The questions of `client.circuits`."""

    def __init__(self, transport: Transport) -> None:
        """Ask through the given transport."""
        self._transport = transport

    @property
    def with_raw_response(self) -> CircuitsWithRawResponse:
        """The same methods, each answering with the response itself: its status, headers, bytes and `parse()`."""
        return CircuitsWithRawResponse(Circuits(self._transport.raw()))

    def design(
        self,
        *,
        edition: Literal["nec-2017", "nec-2020", "nec-2023", "nec-2026"],
        supply: models.Supply | mappings.Supply,
        charger: models.Charger | mappings.Charger,
        conductors: models.Conductors | mappings.Conductors,
        run: Sequence[models.Segment | mappings.Segment],
        jurisdiction: str | Omitted | None = OMITTED,
        readings: models.Readings | mappings.Readings | Omitted | None = OMITTED,
        premises: models.Premises | mappings.Premises | Omitted | None = OMITTED,
        breaker: models.Breaker | mappings.Breaker | Omitted | None = OMITTED,
        points: Sequence[models.Point | mappings.Point] | Omitted | None = OMITTED,
        targets: models.Targets | mappings.Targets | Omitted | None = OMITTED,
    ) -> models.CircuitDesignAnswer:
        """What circuit does this charger need?

        Chooses breaker, conductors, grounding conductor and raceway for a charger and its run.

        Every value comes with its section of the code and the steps that lead to it. Where no size that
        is made can serve, the design is null and the findings say which limit was met first.

        Args:
          edition: The code edition that the answer applies.
          supply: The system that the circuit is taken from.
          charger: The charger: what it is set to, what it is rated for, and how it is connected.
          conductors: What the conductors are made of.
          run: Segments in order from panel to charger.
          jurisdiction: Place, for the record; local amendments are not applied.
          readings: Readings of disputed provisions that the caller chooses; GET /v1/editions/{edition}
            lists them.
          premises: Where the circuit is.
          breaker: The breaker at the panel, apart from its rating.
          targets: What the caller asks for beyond the code.
        """
        from . import models

        return self._transport.ask(
            "POST",
            "/v1/circuit-designs",
            models.CircuitDesignAnswer,
            body={
                "edition": edition,
                "supply": supply,
                "charger": charger,
                "conductors": conductors,
                "run": run,
                "jurisdiction": jurisdiction,
                "readings": readings,
                "premises": premises,
                "breaker": breaker,
                "points": points,
                "targets": targets,
            },
            request=models.CircuitDesignRequest,
        )

    def design_from(
        self,
        request: models.CircuitDesignRequest
        | mappings.CircuitDesignRequest
        | BaseModel
        | Mapping[str, object],
    ) -> models.CircuitDesignAnswer:
        """Ask what `design` asks, with a whole request: a model, or a mapping such as JSON gives."""
        from . import models

        return self._transport.ask(
            "POST",
            "/v1/circuit-designs",
            models.CircuitDesignAnswer,
            body=request,
            request=models.CircuitDesignRequest,
        )

    def review(
        self,
        *,
        edition: Literal["nec-2017", "nec-2020", "nec-2023", "nec-2026"],
        supply: models.Supply | mappings.Supply,
        charger: models.Charger | mappings.Charger,
        conductors: models.Conductors | mappings.Conductors,
        run: Sequence[models.Segment | mappings.Segment],
        installed: models.Installed | mappings.Installed,
        jurisdiction: str | Omitted | None = OMITTED,
        readings: models.Readings | mappings.Readings | Omitted | None = OMITTED,
        premises: models.Premises | mappings.Premises | Omitted | None = OMITTED,
        breaker: models.Breaker | mappings.Breaker | Omitted | None = OMITTED,
        points: Sequence[models.Point | mappings.Point] | Omitted | None = OMITTED,
        targets: models.Targets | mappings.Targets | Omitted | None = OMITTED,
    ) -> models.CircuitReviewAnswer:
        """Does this proposed or installed circuit hold?

        Checks a circuit as proposed or as found on site. A fact that is missing makes a finding
        undetermined.

        Contradictory or impossible facts are answered as failing findings, not as errors.

        Args:
          edition: The code edition that the answer applies.
          supply: The system that the circuit is taken from.
          charger: The charger: what it is set to, what it is rated for, and how it is connected.
          conductors: What the conductors are made of.
          run: Segments in order from panel to charger.
          installed: The circuit as proposed or found. What is not stated is unknown.
          jurisdiction: Place, for the record; local amendments are not applied.
          readings: Readings of disputed provisions that the caller chooses; GET /v1/editions/{edition}
            lists them.
          premises: Where the circuit is.
          breaker: The breaker at the panel, apart from its rating.
          targets: What the caller asks for beyond the code.
        """
        from . import models

        return self._transport.ask(
            "POST",
            "/v1/circuit-reviews",
            models.CircuitReviewAnswer,
            body={
                "edition": edition,
                "supply": supply,
                "charger": charger,
                "conductors": conductors,
                "run": run,
                "installed": installed,
                "jurisdiction": jurisdiction,
                "readings": readings,
                "premises": premises,
                "breaker": breaker,
                "points": points,
                "targets": targets,
            },
            request=models.CircuitReviewRequest,
        )

    def review_from(
        self,
        request: models.CircuitReviewRequest
        | mappings.CircuitReviewRequest
        | BaseModel
        | Mapping[str, object],
    ) -> models.CircuitReviewAnswer:
        """Ask what `review` asks, with a whole request: a model, or a mapping such as JSON gives."""
        from . import models

        return self._transport.ask(
            "POST",
            "/v1/circuit-reviews",
            models.CircuitReviewAnswer,
            body=request,
            request=models.CircuitReviewRequest,
        )

    def compare_currents(
        self,
        *,
        edition: Literal["nec-2017", "nec-2020", "nec-2023", "nec-2026"],
        supply: models.Supply | mappings.Supply,
        charger: models.ComparedCharger | mappings.ComparedCharger,
        conductors: models.Conductors | mappings.Conductors,
        run: Sequence[models.Segment | mappings.Segment],
        jurisdiction: str | Omitted | None = OMITTED,
        readings: models.Readings | mappings.Readings | Omitted | None = OMITTED,
        premises: models.Premises | mappings.Premises | Omitted | None = OMITTED,
        breaker: models.Breaker | mappings.Breaker | Omitted | None = OMITTED,
        points: Sequence[models.Point | mappings.Point] | Omitted | None = OMITTED,
        targets: models.Targets | mappings.Targets | Omitted | None = OMITTED,
        currents_a: Sequence[float] | Omitted | None = OMITTED,
        night_h: float | Omitted | None = OMITTED,
    ) -> models.CurrentComparisonAnswer:
        """What does each step of charging current cost, and what does it bring in?

        Designs the circuit at each of several charging currents, and sets the designs side by side.

        Each row is what a circuit design answers for the same facts and that current; a row that fails
        has no circuit and names the requirements. Where the charger's rated current is stated the
        currents are settings of it, and one above it fails; else each current is a charger of that
        rating.

        Power and energy are at the wall, at the nominal voltage and the charger's power factor, unity
        where none is stated: a 208 V supply gives 13 percent less than a 240 V one at the same current.

        Args:
          edition: The code edition that the answer applies.
          supply: The system that the circuit is taken from.
          charger: The charger, apart from its charging current: the comparison varies that, see
            currents_a.
          conductors: What the conductors are made of.
          run: Segments in order from panel to charger.
          jurisdiction: Place, for the record; local amendments are not applied.
          readings: Readings of disputed provisions that the caller chooses; GET /v1/editions/{edition}
            lists them.
          premises: Where the circuit is.
          breaker: The breaker at the panel, apart from its rating.
          targets: What the caller asks for beyond the code.
          currents_a: Charging currents to compare, A. They are sorted, and one that is stated twice is
            compared once. Settings of the charger where its rated current is stated, else each is a
            charger of that rating. Not stated: 6, 8, 10, 12, 16, 20, 24, 28, 32, 36, 40, 48, 56, 64,
            72, 80 (common practice, no source).
          night_h: Hours of charging in a night. Not stated: no energy of a night is computed.
        """
        from . import models

        return self._transport.ask(
            "POST",
            "/v1/current-comparisons",
            models.CurrentComparisonAnswer,
            body={
                "edition": edition,
                "supply": supply,
                "charger": charger,
                "conductors": conductors,
                "run": run,
                "jurisdiction": jurisdiction,
                "readings": readings,
                "premises": premises,
                "breaker": breaker,
                "points": points,
                "targets": targets,
                "currents_a": currents_a,
                "night_h": night_h,
            },
            request=models.CurrentComparisonRequest,
        )

    def compare_currents_from(
        self,
        request: models.CurrentComparisonRequest
        | mappings.CurrentComparisonRequest
        | BaseModel
        | Mapping[str, object],
    ) -> models.CurrentComparisonAnswer:
        """Ask what `compare_currents` asks, with a whole request: a model, or a mapping such as JSON gives."""
        from . import models

        return self._transport.ask(
            "POST",
            "/v1/current-comparisons",
            models.CurrentComparisonAnswer,
            body=request,
            request=models.CurrentComparisonRequest,
        )


class CircuitsWithRawResponse:
    """The questions of `client.circuits.with_raw_response`."""

    def __init__(self, resource: Circuits) -> None:
        """Take the methods of a resource whose transport answers raw."""
        self.design = raw_method(resource.design)
        self.design_from = raw_method(resource.design_from)
        self.review = raw_method(resource.review)
        self.review_from = raw_method(resource.review_from)
        self.compare_currents = raw_method(resource.compare_currents)
        self.compare_currents_from = raw_method(resource.compare_currents_from)


class Codebook:
    """The questions of `client.codebook`."""

    def __init__(self, transport: Transport) -> None:
        """Ask through the given transport."""
        self._transport = transport

    @property
    def with_raw_response(self) -> CodebookWithRawResponse:
        """The same methods, each answering with the response itself: its status, headers, bytes and `parse()`."""
        return CodebookWithRawResponse(Codebook(self._transport.raw()))

    def list_editions(
        self,
        *,
        limit: int | Omitted | None = OMITTED,
        after: str | Omitted | None = OMITTED,
    ) -> models.EditionPage:
        """Which code editions does the service know?

        Lists the editions that a request can name.

        Args:
          limit: How many entries at most.
          after: Only entries whose name comes after this one.
        """
        from . import models

        return self._transport.ask(
            "GET",
            "/v1/editions",
            models.EditionPage,
            query={
                "limit": limit,
                "after": after,
            },
        )

    def get_edition(
        self,
        *,
        edition: str,
    ) -> models.EditionAnswer:
        """What does the service know of an edition, and where from?

        Names every table and provision of an edition with its section, its source and its confidence.

        Args:
          edition: Name of the edition.
        """
        from . import models

        return self._transport.ask(
            "GET",
            "/v1/editions/{edition}",
            models.EditionAnswer,
            path={
                "edition": edition,
            },
        )

    def get_table(
        self,
        *,
        edition: str,
        table: str,
    ) -> models.TableAnswer:
        """What does this table say, and where from?

        Shows a table as it can be compared with the printed one.

        Args:
          edition: Name of the edition.
          table: Name of the table, as the edition lists it.
        """
        from . import models

        return self._transport.ask(
            "GET",
            "/v1/editions/{edition}/tables/{table}",
            models.TableAnswer,
            path={
                "edition": edition,
                "table": table,
            },
        )

    def compare_editions(
        self,
        *,
        edition: str,
        other: str,
        limit: int | Omitted | None = OMITTED,
        after: str | Omitted | None = OMITTED,
    ) -> models.EditionComparison:
        """What differs between two editions?

        Compares two editions cell by cell: what the other one adds, removes, changes and renumbers.

        Only what the editions say is compared. An edition and itself differ in nothing.

        Args:
          edition: Name of this edition.
          other: Name of the other edition.
          limit: How many entries at most.
          after: Only differences after this one, written kind/name as next_after is.
        """
        from . import models

        return self._transport.ask(
            "GET",
            "/v1/editions/{edition}/differences/{other}",
            models.EditionComparison,
            path={
                "edition": edition,
                "other": other,
            },
            query={
                "limit": limit,
                "after": after,
            },
        )

    def list_rules(
        self,
        *,
        limit: int | Omitted | None = OMITTED,
        after: str | Omitted | None = OMITTED,
    ) -> models.RulePage:
        """Which rules does the service apply?

        Lists the rules with the question that each one asks.

        Args:
          limit: How many entries at most.
          after: Only entries whose name comes after this one.
        """
        from . import models

        return self._transport.ask(
            "GET",
            "/v1/rules",
            models.RulePage,
            query={
                "limit": limit,
                "after": after,
            },
        )

    def get_rule(
        self,
        *,
        rule: str,
    ) -> models.RuleAnswer:
        """What does this rule ask, and what does it rest on?

        Explains a rule: when it applies, what it rests on and what it does where a fact is missing.

        Args:
          rule: Name of the rule.
        """
        from . import models

        return self._transport.ask(
            "GET",
            "/v1/rules/{rule}",
            models.RuleAnswer,
            path={
                "rule": rule,
            },
        )


class CodebookWithRawResponse:
    """The questions of `client.codebook.with_raw_response`."""

    def __init__(self, resource: Codebook) -> None:
        """Take the methods of a resource whose transport answers raw."""
        self.list_editions = raw_method(resource.list_editions)
        self.get_edition = raw_method(resource.get_edition)
        self.get_table = raw_method(resource.get_table)
        self.compare_editions = raw_method(resource.compare_editions)
        self.list_rules = raw_method(resource.list_rules)
        self.get_rule = raw_method(resource.get_rule)


class Operations:
    """The questions of `client.operations`."""

    def __init__(self, transport: Transport) -> None:
        """Ask through the given transport."""
        self._transport = transport

    @property
    def with_raw_response(self) -> OperationsWithRawResponse:
        """The same methods, each answering with the response itself: its status, headers, bytes and `parse()`."""
        return OperationsWithRawResponse(Operations(self._transport.raw()))

    def check_live(
        self,
    ) -> models.Health:
        """Is the process alive?

        Answers as long as the process can answer anything; a supervisor restarts it when it does not.
        """
        from . import models

        return self._transport.ask(
            "GET",
            "/health/live",
            models.Health,
        )

    def check_ready(
        self,
    ) -> models.Health:
        """Does the process take requests?

        Answers 200 while the process takes requests and 503 once it is shutting down.
        """
        from . import models

        return self._transport.ask(
            "GET",
            "/health/ready",
            models.Health,
        )


class OperationsWithRawResponse:
    """The questions of `client.operations.with_raw_response`."""

    def __init__(self, resource: Operations) -> None:
        """Take the methods of a resource whose transport answers raw."""
        self.check_live = raw_method(resource.check_live)
        self.check_ready = raw_method(resource.check_ready)


class Resources:
    """The resources of Client, one attribute each."""

    def __init__(self, transport: Transport) -> None:
        """Bind every resource to one transport."""
        self.circuits = Circuits(transport)
        self.codebook = Codebook(transport)
        self.operations = Operations(transport)


class AsyncCircuits:
    """The questions of `client.circuits`."""

    def __init__(self, transport: AsyncTransport) -> None:
        """Ask through the given transport."""
        self._transport = transport

    @property
    def with_raw_response(self) -> AsyncCircuitsWithRawResponse:
        """The same methods, each answering with the response itself: its status, headers, bytes and `parse()`."""
        return AsyncCircuitsWithRawResponse(AsyncCircuits(self._transport.raw()))

    async def design(
        self,
        *,
        edition: Literal["nec-2017", "nec-2020", "nec-2023", "nec-2026"],
        supply: models.Supply | mappings.Supply,
        charger: models.Charger | mappings.Charger,
        conductors: models.Conductors | mappings.Conductors,
        run: Sequence[models.Segment | mappings.Segment],
        jurisdiction: str | Omitted | None = OMITTED,
        readings: models.Readings | mappings.Readings | Omitted | None = OMITTED,
        premises: models.Premises | mappings.Premises | Omitted | None = OMITTED,
        breaker: models.Breaker | mappings.Breaker | Omitted | None = OMITTED,
        points: Sequence[models.Point | mappings.Point] | Omitted | None = OMITTED,
        targets: models.Targets | mappings.Targets | Omitted | None = OMITTED,
    ) -> models.CircuitDesignAnswer:
        """What circuit does this charger need?

        Chooses breaker, conductors, grounding conductor and raceway for a charger and its run.

        Every value comes with its section of the code and the steps that lead to it. Where no size that
        is made can serve, the design is null and the findings say which limit was met first.

        Args:
          edition: The code edition that the answer applies.
          supply: The system that the circuit is taken from.
          charger: The charger: what it is set to, what it is rated for, and how it is connected.
          conductors: What the conductors are made of.
          run: Segments in order from panel to charger.
          jurisdiction: Place, for the record; local amendments are not applied.
          readings: Readings of disputed provisions that the caller chooses; GET /v1/editions/{edition}
            lists them.
          premises: Where the circuit is.
          breaker: The breaker at the panel, apart from its rating.
          targets: What the caller asks for beyond the code.
        """
        from . import models

        return await self._transport.ask(
            "POST",
            "/v1/circuit-designs",
            models.CircuitDesignAnswer,
            body={
                "edition": edition,
                "supply": supply,
                "charger": charger,
                "conductors": conductors,
                "run": run,
                "jurisdiction": jurisdiction,
                "readings": readings,
                "premises": premises,
                "breaker": breaker,
                "points": points,
                "targets": targets,
            },
            request=models.CircuitDesignRequest,
        )

    async def design_from(
        self,
        request: models.CircuitDesignRequest
        | mappings.CircuitDesignRequest
        | BaseModel
        | Mapping[str, object],
    ) -> models.CircuitDesignAnswer:
        """Ask what `design` asks, with a whole request: a model, or a mapping such as JSON gives."""
        from . import models

        return await self._transport.ask(
            "POST",
            "/v1/circuit-designs",
            models.CircuitDesignAnswer,
            body=request,
            request=models.CircuitDesignRequest,
        )

    async def review(
        self,
        *,
        edition: Literal["nec-2017", "nec-2020", "nec-2023", "nec-2026"],
        supply: models.Supply | mappings.Supply,
        charger: models.Charger | mappings.Charger,
        conductors: models.Conductors | mappings.Conductors,
        run: Sequence[models.Segment | mappings.Segment],
        installed: models.Installed | mappings.Installed,
        jurisdiction: str | Omitted | None = OMITTED,
        readings: models.Readings | mappings.Readings | Omitted | None = OMITTED,
        premises: models.Premises | mappings.Premises | Omitted | None = OMITTED,
        breaker: models.Breaker | mappings.Breaker | Omitted | None = OMITTED,
        points: Sequence[models.Point | mappings.Point] | Omitted | None = OMITTED,
        targets: models.Targets | mappings.Targets | Omitted | None = OMITTED,
    ) -> models.CircuitReviewAnswer:
        """Does this proposed or installed circuit hold?

        Checks a circuit as proposed or as found on site. A fact that is missing makes a finding
        undetermined.

        Contradictory or impossible facts are answered as failing findings, not as errors.

        Args:
          edition: The code edition that the answer applies.
          supply: The system that the circuit is taken from.
          charger: The charger: what it is set to, what it is rated for, and how it is connected.
          conductors: What the conductors are made of.
          run: Segments in order from panel to charger.
          installed: The circuit as proposed or found. What is not stated is unknown.
          jurisdiction: Place, for the record; local amendments are not applied.
          readings: Readings of disputed provisions that the caller chooses; GET /v1/editions/{edition}
            lists them.
          premises: Where the circuit is.
          breaker: The breaker at the panel, apart from its rating.
          targets: What the caller asks for beyond the code.
        """
        from . import models

        return await self._transport.ask(
            "POST",
            "/v1/circuit-reviews",
            models.CircuitReviewAnswer,
            body={
                "edition": edition,
                "supply": supply,
                "charger": charger,
                "conductors": conductors,
                "run": run,
                "installed": installed,
                "jurisdiction": jurisdiction,
                "readings": readings,
                "premises": premises,
                "breaker": breaker,
                "points": points,
                "targets": targets,
            },
            request=models.CircuitReviewRequest,
        )

    async def review_from(
        self,
        request: models.CircuitReviewRequest
        | mappings.CircuitReviewRequest
        | BaseModel
        | Mapping[str, object],
    ) -> models.CircuitReviewAnswer:
        """Ask what `review` asks, with a whole request: a model, or a mapping such as JSON gives."""
        from . import models

        return await self._transport.ask(
            "POST",
            "/v1/circuit-reviews",
            models.CircuitReviewAnswer,
            body=request,
            request=models.CircuitReviewRequest,
        )

    async def compare_currents(
        self,
        *,
        edition: Literal["nec-2017", "nec-2020", "nec-2023", "nec-2026"],
        supply: models.Supply | mappings.Supply,
        charger: models.ComparedCharger | mappings.ComparedCharger,
        conductors: models.Conductors | mappings.Conductors,
        run: Sequence[models.Segment | mappings.Segment],
        jurisdiction: str | Omitted | None = OMITTED,
        readings: models.Readings | mappings.Readings | Omitted | None = OMITTED,
        premises: models.Premises | mappings.Premises | Omitted | None = OMITTED,
        breaker: models.Breaker | mappings.Breaker | Omitted | None = OMITTED,
        points: Sequence[models.Point | mappings.Point] | Omitted | None = OMITTED,
        targets: models.Targets | mappings.Targets | Omitted | None = OMITTED,
        currents_a: Sequence[float] | Omitted | None = OMITTED,
        night_h: float | Omitted | None = OMITTED,
    ) -> models.CurrentComparisonAnswer:
        """What does each step of charging current cost, and what does it bring in?

        Designs the circuit at each of several charging currents, and sets the designs side by side.

        Each row is what a circuit design answers for the same facts and that current; a row that fails
        has no circuit and names the requirements. Where the charger's rated current is stated the
        currents are settings of it, and one above it fails; else each current is a charger of that
        rating.

        Power and energy are at the wall, at the nominal voltage and the charger's power factor, unity
        where none is stated: a 208 V supply gives 13 percent less than a 240 V one at the same current.

        Args:
          edition: The code edition that the answer applies.
          supply: The system that the circuit is taken from.
          charger: The charger, apart from its charging current: the comparison varies that, see
            currents_a.
          conductors: What the conductors are made of.
          run: Segments in order from panel to charger.
          jurisdiction: Place, for the record; local amendments are not applied.
          readings: Readings of disputed provisions that the caller chooses; GET /v1/editions/{edition}
            lists them.
          premises: Where the circuit is.
          breaker: The breaker at the panel, apart from its rating.
          targets: What the caller asks for beyond the code.
          currents_a: Charging currents to compare, A. They are sorted, and one that is stated twice is
            compared once. Settings of the charger where its rated current is stated, else each is a
            charger of that rating. Not stated: 6, 8, 10, 12, 16, 20, 24, 28, 32, 36, 40, 48, 56, 64,
            72, 80 (common practice, no source).
          night_h: Hours of charging in a night. Not stated: no energy of a night is computed.
        """
        from . import models

        return await self._transport.ask(
            "POST",
            "/v1/current-comparisons",
            models.CurrentComparisonAnswer,
            body={
                "edition": edition,
                "supply": supply,
                "charger": charger,
                "conductors": conductors,
                "run": run,
                "jurisdiction": jurisdiction,
                "readings": readings,
                "premises": premises,
                "breaker": breaker,
                "points": points,
                "targets": targets,
                "currents_a": currents_a,
                "night_h": night_h,
            },
            request=models.CurrentComparisonRequest,
        )

    async def compare_currents_from(
        self,
        request: models.CurrentComparisonRequest
        | mappings.CurrentComparisonRequest
        | BaseModel
        | Mapping[str, object],
    ) -> models.CurrentComparisonAnswer:
        """Ask what `compare_currents` asks, with a whole request: a model, or a mapping such as JSON gives."""
        from . import models

        return await self._transport.ask(
            "POST",
            "/v1/current-comparisons",
            models.CurrentComparisonAnswer,
            body=request,
            request=models.CurrentComparisonRequest,
        )


class AsyncCircuitsWithRawResponse:
    """The questions of `client.circuits.with_raw_response`."""

    def __init__(self, resource: AsyncCircuits) -> None:
        """Take the methods of a resource whose transport answers raw."""
        self.design = raw_later_method(resource.design)
        self.design_from = raw_later_method(resource.design_from)
        self.review = raw_later_method(resource.review)
        self.review_from = raw_later_method(resource.review_from)
        self.compare_currents = raw_later_method(resource.compare_currents)
        self.compare_currents_from = raw_later_method(resource.compare_currents_from)


class AsyncCodebook:
    """The questions of `client.codebook`."""

    def __init__(self, transport: AsyncTransport) -> None:
        """Ask through the given transport."""
        self._transport = transport

    @property
    def with_raw_response(self) -> AsyncCodebookWithRawResponse:
        """The same methods, each answering with the response itself: its status, headers, bytes and `parse()`."""
        return AsyncCodebookWithRawResponse(AsyncCodebook(self._transport.raw()))

    async def list_editions(
        self,
        *,
        limit: int | Omitted | None = OMITTED,
        after: str | Omitted | None = OMITTED,
    ) -> models.EditionPage:
        """Which code editions does the service know?

        Lists the editions that a request can name.

        Args:
          limit: How many entries at most.
          after: Only entries whose name comes after this one.
        """
        from . import models

        return await self._transport.ask(
            "GET",
            "/v1/editions",
            models.EditionPage,
            query={
                "limit": limit,
                "after": after,
            },
        )

    async def get_edition(
        self,
        *,
        edition: str,
    ) -> models.EditionAnswer:
        """What does the service know of an edition, and where from?

        Names every table and provision of an edition with its section, its source and its confidence.

        Args:
          edition: Name of the edition.
        """
        from . import models

        return await self._transport.ask(
            "GET",
            "/v1/editions/{edition}",
            models.EditionAnswer,
            path={
                "edition": edition,
            },
        )

    async def get_table(
        self,
        *,
        edition: str,
        table: str,
    ) -> models.TableAnswer:
        """What does this table say, and where from?

        Shows a table as it can be compared with the printed one.

        Args:
          edition: Name of the edition.
          table: Name of the table, as the edition lists it.
        """
        from . import models

        return await self._transport.ask(
            "GET",
            "/v1/editions/{edition}/tables/{table}",
            models.TableAnswer,
            path={
                "edition": edition,
                "table": table,
            },
        )

    async def compare_editions(
        self,
        *,
        edition: str,
        other: str,
        limit: int | Omitted | None = OMITTED,
        after: str | Omitted | None = OMITTED,
    ) -> models.EditionComparison:
        """What differs between two editions?

        Compares two editions cell by cell: what the other one adds, removes, changes and renumbers.

        Only what the editions say is compared. An edition and itself differ in nothing.

        Args:
          edition: Name of this edition.
          other: Name of the other edition.
          limit: How many entries at most.
          after: Only differences after this one, written kind/name as next_after is.
        """
        from . import models

        return await self._transport.ask(
            "GET",
            "/v1/editions/{edition}/differences/{other}",
            models.EditionComparison,
            path={
                "edition": edition,
                "other": other,
            },
            query={
                "limit": limit,
                "after": after,
            },
        )

    async def list_rules(
        self,
        *,
        limit: int | Omitted | None = OMITTED,
        after: str | Omitted | None = OMITTED,
    ) -> models.RulePage:
        """Which rules does the service apply?

        Lists the rules with the question that each one asks.

        Args:
          limit: How many entries at most.
          after: Only entries whose name comes after this one.
        """
        from . import models

        return await self._transport.ask(
            "GET",
            "/v1/rules",
            models.RulePage,
            query={
                "limit": limit,
                "after": after,
            },
        )

    async def get_rule(
        self,
        *,
        rule: str,
    ) -> models.RuleAnswer:
        """What does this rule ask, and what does it rest on?

        Explains a rule: when it applies, what it rests on and what it does where a fact is missing.

        Args:
          rule: Name of the rule.
        """
        from . import models

        return await self._transport.ask(
            "GET",
            "/v1/rules/{rule}",
            models.RuleAnswer,
            path={
                "rule": rule,
            },
        )


class AsyncCodebookWithRawResponse:
    """The questions of `client.codebook.with_raw_response`."""

    def __init__(self, resource: AsyncCodebook) -> None:
        """Take the methods of a resource whose transport answers raw."""
        self.list_editions = raw_later_method(resource.list_editions)
        self.get_edition = raw_later_method(resource.get_edition)
        self.get_table = raw_later_method(resource.get_table)
        self.compare_editions = raw_later_method(resource.compare_editions)
        self.list_rules = raw_later_method(resource.list_rules)
        self.get_rule = raw_later_method(resource.get_rule)


class AsyncOperations:
    """The questions of `client.operations`."""

    def __init__(self, transport: AsyncTransport) -> None:
        """Ask through the given transport."""
        self._transport = transport

    @property
    def with_raw_response(self) -> AsyncOperationsWithRawResponse:
        """The same methods, each answering with the response itself: its status, headers, bytes and `parse()`."""
        return AsyncOperationsWithRawResponse(AsyncOperations(self._transport.raw()))

    async def check_live(
        self,
    ) -> models.Health:
        """Is the process alive?

        Answers as long as the process can answer anything; a supervisor restarts it when it does not.
        """
        from . import models

        return await self._transport.ask(
            "GET",
            "/health/live",
            models.Health,
        )

    async def check_ready(
        self,
    ) -> models.Health:
        """Does the process take requests?

        Answers 200 while the process takes requests and 503 once it is shutting down.
        """
        from . import models

        return await self._transport.ask(
            "GET",
            "/health/ready",
            models.Health,
        )


class AsyncOperationsWithRawResponse:
    """The questions of `client.operations.with_raw_response`."""

    def __init__(self, resource: AsyncOperations) -> None:
        """Take the methods of a resource whose transport answers raw."""
        self.check_live = raw_later_method(resource.check_live)
        self.check_ready = raw_later_method(resource.check_ready)


class AsyncResources:
    """The resources of AsyncClient, one attribute each."""

    def __init__(self, transport: AsyncTransport) -> None:
        """Bind every resource to one transport."""
        self.circuits = AsyncCircuits(transport)
        self.codebook = AsyncCodebook(transport)
        self.operations = AsyncOperations(transport)
