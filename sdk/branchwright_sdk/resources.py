# Generated from the OpenAPI document by sdk/generator. Do not edit.
"""What the service answers, as methods: each resource for blocking and for asynchronous callers."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Literal

from .answers import raw_later_method, raw_method
from .bodies import OMITTED, Omitted, Source
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
        price_book: models.PriceBook | mappings.PriceBook | Omitted | None = OMITTED,
        labour_table: models.LabourTable | mappings.LabourTable | Omitted | None = OMITTED,
        demo_prices: bool | Omitted | None = OMITTED,
        job: models.JobFacts | mappings.JobFacts | Omitted | None = OMITTED,
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
          price_book: What things cost. Not stated: no cost is estimated, unless demo_prices asks for
            it.
          labour_table: What work takes. Not stated: the demo table, whose hourly rate is invented.
          demo_prices: Whether the demo book, whose prices are invented, stands in for a price book.
          job: What an installation estimate is told beside circuit and prices; for the cost.
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
                "price_book": price_book,
                "labour_table": labour_table,
                "demo_prices": demo_prices,
                "job": job,
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


class Services:
    """The questions of `client.services`."""

    def __init__(self, transport: Transport) -> None:
        """Ask through the given transport."""
        self._transport = transport

    @property
    def with_raw_response(self) -> ServicesWithRawResponse:
        """The same methods, each answering with the response itself: its status, headers, bytes and `parse()`."""
        return ServicesWithRawResponse(Services(self._transport.raw()))

    def calculate_load(
        self,
        *,
        edition: Literal["nec-2017", "nec-2020", "nec-2023", "nec-2026"],
        dwelling: models.Dwelling | mappings.Dwelling,
        jurisdiction: str | Omitted | None = OMITTED,
        readings: models.Readings | mappings.Readings | Omitted | None = OMITTED,
        occupancy: Literal["one-family", "two-family", "multifamily", "other"] | Omitted | None = OMITTED,
        service: models.DwellingService | mappings.DwellingService | Omitted | None = OMITTED,
        methods: Sequence[Literal["standard", "optional-new", "optional-existing"]]
        | Omitted
        | None = OMITTED,
    ) -> models.LoadCalculationAnswer:
        """What is this dwelling's load by each permitted method?

        Calculates a dwelling's load by the standard method, the optional one and the one for existing
        dwellings.

        Every line has its connected load, its demand factor, its demand and its section; the lines of a
        method add up to its total. Each method says whether it may be used here and which service it
        asks for at least.

        Args:
          edition: Code edition to apply.
          dwelling: One dwelling unit and what stands in it. A list that is not stated is empty.
          jurisdiction: Place, for the record; local amendments are not applied.
          readings: Readings of disputed provisions that the caller chooses; GET /v1/editions/{edition}
            lists them.
          occupancy: Kind of building; decides on the least service. Not stated: one-family.
          service: Not stated: loads that need a voltage and all currents are undetermined.
          methods: Methods to calculate by. Not stated: all. One that is named twice is calculated once.
        """
        from . import models

        return self._transport.ask(
            "POST",
            "/v1/load-calculations",
            models.LoadCalculationAnswer,
            body={
                "edition": edition,
                "dwelling": dwelling,
                "jurisdiction": jurisdiction,
                "readings": readings,
                "occupancy": occupancy,
                "service": service,
                "methods": methods,
            },
            request=models.LoadCalculationRequest,
        )

    def calculate_load_from(
        self,
        request: models.LoadCalculationRequest
        | mappings.LoadCalculationRequest
        | BaseModel
        | Mapping[str, object],
    ) -> models.LoadCalculationAnswer:
        """Ask what `calculate_load` asks, with a whole request: a model, or a mapping such as JSON gives."""
        from . import models

        return self._transport.ask(
            "POST",
            "/v1/load-calculations",
            models.LoadCalculationAnswer,
            body=request,
            request=models.LoadCalculationRequest,
        )

    def review_capacity(
        self,
        *,
        edition: Literal["nec-2017", "nec-2020", "nec-2023", "nec-2026"],
        service: models.ReviewedService | mappings.ReviewedService,
        existing_load: models.CalculatedExistingLoad
        | mappings.CalculatedExistingLoad
        | models.MeasuredExistingLoad
        | mappings.MeasuredExistingLoad,
        chargers: Sequence[models.AddedCharger | mappings.AddedCharger],
        jurisdiction: str | Omitted | None = OMITTED,
        readings: models.Readings | mappings.Readings | Omitted | None = OMITTED,
        occupancy: Literal["one-family", "two-family", "multifamily", "other"] | Omitted | None = OMITTED,
        management: models.EnergyManagement | mappings.EnergyManagement | Omitted | None = OMITTED,
        shared_circuits: Sequence[models.SharedCircuit | mappings.SharedCircuit] | Omitted | None = OMITTED,
    ) -> models.CapacityReviewAnswer:
        """Does the service carry the charger; if not, what would make it fit?

        Holds chargers and the load that is there already against the service, its main breaker and its
        busbar.

        The load that is there is calculated or measured; a measured one has to meet every condition of
        the code. An energy management is reviewed with it: its setting, and what happens when its link
        is lost.

        Args:
          edition: Code edition to apply.
          service: The service and its panel.
          chargers: The chargers to be added.
          jurisdiction: Place, for the record; local amendments are not applied.
          readings: Readings of disputed provisions that the caller chooses; GET /v1/editions/{edition}
            lists them.
          occupancy: Kind of building; decides on the service conductors. Not stated: unknown.
          management: Energy management of the service. Not stated: none.
          shared_circuits: Circuits that several of the chargers share.
        """
        from . import models

        return self._transport.ask(
            "POST",
            "/v1/service-capacity-reviews",
            models.CapacityReviewAnswer,
            body={
                "edition": edition,
                "service": service,
                "existing_load": existing_load,
                "chargers": chargers,
                "jurisdiction": jurisdiction,
                "readings": readings,
                "occupancy": occupancy,
                "management": management,
                "shared_circuits": shared_circuits,
            },
            request=models.CapacityReviewRequest,
        )

    def review_capacity_from(
        self,
        request: models.CapacityReviewRequest
        | mappings.CapacityReviewRequest
        | BaseModel
        | Mapping[str, object],
    ) -> models.CapacityReviewAnswer:
        """Ask what `review_capacity` asks, with a whole request: a model, or a mapping such as JSON gives."""
        from . import models

        return self._transport.ask(
            "POST",
            "/v1/service-capacity-reviews",
            models.CapacityReviewAnswer,
            body=request,
            request=models.CapacityReviewRequest,
        )

    def read_interval_data(
        self,
        *,
        series: models.RegularSeries | mappings.RegularSeries | models.StampedSeries | mappings.StampedSeries,
        edition: Literal["nec-2017", "nec-2020", "nec-2023", "nec-2026"] | Omitted | None = OMITTED,
        jurisdiction: str | Omitted | None = OMITTED,
        readings: models.Readings | mappings.Readings | Omitted | None = OMITTED,
        time_zone: str | Omitted | None = OMITTED,
        system: Literal["split-phase-120-240", "wye-208y-120"] | Omitted | None = OMITTED,
        phases: Literal[1, 3] | Omitted | None = OMITTED,
        has_generation: bool | Omitted | None = OMITTED,
        leg_assumption: Literal["balanced", "all-on-one-leg"] | Omitted | None = OMITTED,
    ) -> models.IntervalDataAnswer:
        """Is this meter data fit for use, and what is its measured demand?

        Reads meter readings as JSON, as CSV or as Green Button XML, and says how good they are.

        What the readings themselves have wrong is answered as findings that name the place: gaps,
        duplicates, readings out of order, registers sent as intervals, rows that cannot be read. The
        query says what a CSV or Green Button file does not say itself; a field of it that means nothing
        for the body is named in a recommendation.

        The measured demand is the greatest average over the data's own interval. Where that is longer
        than 15 minutes, the answer bounds the 15-minute demand within it and says how.

        Args:
          edition: The code edition whose conditions of a measured demand are applied. Not stated: the
            findings that rest on them are undetermined.
          jurisdiction: Place, for the record; local amendments are not applied.
          readings: Readings of disputed provisions that the caller chooses; GET /v1/editions/{edition}
            lists them.
          time_zone: IANA name of the zone of stamps that bear no offset, and of months and days. Not
            stated: stamps need an offset.
          system: System that the meter measures, for amperes. Not stated: amperes are left out.
          phases: Phases that the meter measures; 3 on a wye system only. Not stated: 1.
          has_generation: Whether the premises have solar or other generation, or storage. Not stated:
            unknown.
          leg_assumption: How the demand lies on the legs, for amperes. Not stated: balanced, which is
            to be verified.
        """
        from . import models

        return self._transport.ask(
            "POST",
            "/v1/interval-data",
            models.IntervalDataAnswer,
            body={
                "series": series,
                "edition": edition,
                "jurisdiction": jurisdiction,
                "readings": readings,
                "time_zone": time_zone,
                "system": system,
                "phases": phases,
                "has_generation": has_generation,
                "leg_assumption": leg_assumption,
            },
            request=models.IntervalDataRequest,
        )

    def read_interval_data_from(
        self,
        request: models.IntervalDataRequest | mappings.IntervalDataRequest | BaseModel | Mapping[str, object],
    ) -> models.IntervalDataAnswer:
        """Ask what `read_interval_data` asks, with a whole request: a model, or a mapping such as JSON gives."""
        from . import models

        return self._transport.ask(
            "POST",
            "/v1/interval-data",
            models.IntervalDataAnswer,
            body=request,
            request=models.IntervalDataRequest,
        )

    def read_interval_csv(
        self,
        source: Source,
        *,
        edition: Literal["nec-2017", "nec-2020", "nec-2023", "nec-2026"] | Omitted | None = OMITTED,
        jurisdiction: str | Omitted | None = OMITTED,
        time_zone: str | Omitted | None = OMITTED,
        system: Literal["split-phase-120-240", "wye-208y-120"] | Omitted | None = OMITTED,
        phases: Literal[1, 3] | Omitted | None = OMITTED,
        has_generation: bool | Omitted | None = OMITTED,
        leg_assumption: Literal["balanced", "all-on-one-leg"] | Omitted | None = OMITTED,
        measured_with_generation: Literal["refused", "measured-gross"] | Omitted | None = OMITTED,
        measured_demand_interval: Literal["fifteen-minutes", "as-metered"] | Omitted | None = OMITTED,
        unit: Literal["energy-wh", "energy-kwh", "power-w", "power-kw", "register-wh", "register-kwh"]
        | Omitted
        | None = OMITTED,
        time_column: str | Omitted | None = OMITTED,
        date_column: str | Omitted | None = OMITTED,
        time_of_day_column: str | Omitted | None = OMITTED,
        end_column: str | Omitted | None = OMITTED,
        value_column: str | Omitted | None = OMITTED,
        first_value_column: str | Omitted | None = OMITTED,
        last_value_column: str | Omitted | None = OMITTED,
        quality_column: str | Omitted | None = OMITTED,
        stamps_at: Literal["start", "end"] | Omitted | None = OMITTED,
        delimiter: Literal["comma", "semicolon", "tab", "pipe"] | Omitted | None = OMITTED,
        decimal_mark: Literal["point", "comma"] | Omitted | None = OMITTED,
        date_order: Literal["year-month-day", "month-day-year", "day-month-year"] | Omitted | None = OMITTED,
        interval_minutes: int | Omitted | None = OMITTED,
    ) -> models.IntervalDataAnswer:
        """Is this meter data fit for use, and what is its measured demand?

        Asks what `read_interval_data` asks, with a body of text/csv.

        Args:
          source: A table with one reading a row, or one day a row; the query names its columns and
            their unit. Bytes, or the path of a file that holds them.
          edition: As in a JSON body.
          jurisdiction: Place, for the record; local amendments are not applied.
          time_zone: IANA name of the zone of stamps that bear no offset, and of months and days. Not
            stated: stamps need an offset.
          system: System that the meter measures, for amperes. Not stated: amperes are left out.
          phases: Phases that the meter measures; 3 on a wye system only. Not stated: 1.
          has_generation: Whether the premises have solar or other generation, or storage. Not stated:
            unknown.
          leg_assumption: How the demand lies on the legs, for amperes. Not stated: balanced, which is
            to be verified.
          measured_with_generation: Reading of the interpretation of this name.
          measured_demand_interval: Reading of the interpretation of this name.
          unit: CSV: What the values are: energy of each interval, average power over it, or the
            register of the meter at the stamp.
          time_column: CSV: column with date and time of each reading.
          date_column: CSV: column with the date, beside a time column or before a day's values in one
            row.
          time_of_day_column: CSV: column with the time of day; the date has its own.
          end_column: CSV: column with the end of each interval: date and time, or time of day beside a
            date.
          value_column: CSV: column with the value.
          first_value_column: CSV with one row a day: column of the day's first interval; the others
            follow it.
          last_value_column: CSV with one row a day: column of the day's last interval. Not stated: the
            last column.
          quality_column: CSV: column that says how the value came about.
          stamps_at: CSV: Whether a stamp is the start or the end of its interval. Not stated: start,
            which is to be verified.
          delimiter: CSV. Not stated: the one that parts the named columns.
          decimal_mark: CSV. Not stated: told from the values where they leave no doubt.
          date_order: CSV. Not stated: told from the dates where they leave no doubt.
          interval_minutes: CSV: length of every interval. Not stated: told from the stamps.
        """
        from . import models

        return self._transport.ask(
            "POST",
            "/v1/interval-data",
            models.IntervalDataAnswer,
            query={
                "edition": edition,
                "jurisdiction": jurisdiction,
                "time_zone": time_zone,
                "system": system,
                "phases": phases,
                "has_generation": has_generation,
                "leg_assumption": leg_assumption,
                "measured-with-generation": measured_with_generation,
                "measured-demand-interval": measured_demand_interval,
                "unit": unit,
                "time_column": time_column,
                "date_column": date_column,
                "time_of_day_column": time_of_day_column,
                "end_column": end_column,
                "value_column": value_column,
                "first_value_column": first_value_column,
                "last_value_column": last_value_column,
                "quality_column": quality_column,
                "stamps_at": stamps_at,
                "delimiter": delimiter,
                "decimal_mark": decimal_mark,
                "date_order": date_order,
                "interval_minutes": interval_minutes,
            },
            body=source,
            media_type="text/csv",
        )

    def read_green_button(
        self,
        source: Source,
        *,
        edition: Literal["nec-2017", "nec-2020", "nec-2023", "nec-2026"] | Omitted | None = OMITTED,
        jurisdiction: str | Omitted | None = OMITTED,
        time_zone: str | Omitted | None = OMITTED,
        system: Literal["split-phase-120-240", "wye-208y-120"] | Omitted | None = OMITTED,
        phases: Literal[1, 3] | Omitted | None = OMITTED,
        has_generation: bool | Omitted | None = OMITTED,
        leg_assumption: Literal["balanced", "all-on-one-leg"] | Omitted | None = OMITTED,
        measured_with_generation: Literal["refused", "measured-gross"] | Omitted | None = OMITTED,
        measured_demand_interval: Literal["fifteen-minutes", "as-metered"] | Omitted | None = OMITTED,
        meter_reading: str | Omitted | None = OMITTED,
    ) -> models.IntervalDataAnswer:
        """Is this meter data fit for use, and what is its measured demand?

        Asks what `read_interval_data` asks, with a body of application/xml.

        Args:
          source: A Green Button file: an Atom feed of the Energy Services Provider Interface. Bytes, or
            the path of a file that holds them.
          edition: As in a JSON body.
          jurisdiction: Place, for the record; local amendments are not applied.
          time_zone: IANA name of the zone of stamps that bear no offset, and of months and days. Not
            stated: stamps need an offset.
          system: System that the meter measures, for amperes. Not stated: amperes are left out.
          phases: Phases that the meter measures; 3 on a wye system only. Not stated: 1.
          has_generation: Whether the premises have solar or other generation, or storage. Not stated:
            unknown.
          leg_assumption: How the demand lies on the legs, for amperes. Not stated: balanced, which is
            to be verified.
          measured_with_generation: Reading of the interpretation of this name.
          measured_demand_interval: Reading of the interpretation of this name.
          meter_reading: Green Button with several series: title or self link of the usage point or
            meter reading that is meant.
        """
        from . import models

        return self._transport.ask(
            "POST",
            "/v1/interval-data",
            models.IntervalDataAnswer,
            query={
                "edition": edition,
                "jurisdiction": jurisdiction,
                "time_zone": time_zone,
                "system": system,
                "phases": phases,
                "has_generation": has_generation,
                "leg_assumption": leg_assumption,
                "measured-with-generation": measured_with_generation,
                "measured-demand-interval": measured_demand_interval,
                "meter_reading": meter_reading,
            },
            body=source,
            media_type="application/xml",
        )

    def study_managed_charging(
        self,
        *,
        edition: Literal["nec-2017", "nec-2020", "nec-2023", "nec-2026"],
        service: models.StudiedService | mappings.StudiedService,
        house_load: models.HouseLoad | mappings.HouseLoad,
        chargers: Sequence[models.ManagedCharger | mappings.ManagedCharger],
        management: models.Management | mappings.Management,
        jurisdiction: str | Omitted | None = OMITTED,
        readings: models.Readings | mappings.Readings | Omitted | None = OMITTED,
    ) -> models.ManagedChargingAnswer:
        """What does load-managed charging deliver, night by night?

        Simulates every interval of a house's load with the vehicles that charge under an energy
        management.

        In each interval the chargers get what the control setting and its margin leave on the largest
        leg, in whole amperes; below 6 A a vehicle waits. Several vehicles share by the rule that the
        request states.

        Simulated nights are no proof of safety: that needs listed equipment, verified sensors and a
        tested lost link.

        Args:
          edition: The code edition that the answer applies.
          service: The service that house and chargers share.
          house_load: What the house draws without the chargers; state either energy_wh or
            leg_currents_a.
          chargers: The chargers under management.
          management: The energy management that holds the largest leg at or below a setting by lowering
            the chargers.
          jurisdiction: Place, for the record; local amendments are not applied.
          readings: Readings of disputed provisions that the caller chooses; GET /v1/editions/{edition}
            lists them.
        """
        from . import models

        return self._transport.ask(
            "POST",
            "/v1/managed-charging-studies",
            models.ManagedChargingAnswer,
            body={
                "edition": edition,
                "service": service,
                "house_load": house_load,
                "chargers": chargers,
                "management": management,
                "jurisdiction": jurisdiction,
                "readings": readings,
            },
            request=models.ManagedChargingRequest,
        )

    def study_managed_charging_from(
        self,
        request: models.ManagedChargingRequest
        | mappings.ManagedChargingRequest
        | BaseModel
        | Mapping[str, object],
    ) -> models.ManagedChargingAnswer:
        """Ask what `study_managed_charging` asks, with a whole request: a model, or a mapping such as JSON gives."""
        from . import models

        return self._transport.ask(
            "POST",
            "/v1/managed-charging-studies",
            models.ManagedChargingAnswer,
            body=request,
            request=models.ManagedChargingRequest,
        )


class ServicesWithRawResponse:
    """The questions of `client.services.with_raw_response`."""

    def __init__(self, resource: Services) -> None:
        """Take the methods of a resource whose transport answers raw."""
        self.calculate_load = raw_method(resource.calculate_load)
        self.calculate_load_from = raw_method(resource.calculate_load_from)
        self.review_capacity = raw_method(resource.review_capacity)
        self.review_capacity_from = raw_method(resource.review_capacity_from)
        self.read_interval_data = raw_method(resource.read_interval_data)
        self.read_interval_data_from = raw_method(resource.read_interval_data_from)
        self.read_interval_csv = raw_method(resource.read_interval_csv)
        self.read_green_button = raw_method(resource.read_green_button)
        self.study_managed_charging = raw_method(resource.study_managed_charging)
        self.study_managed_charging_from = raw_method(resource.study_managed_charging_from)


class Costs:
    """The questions of `client.costs`."""

    def __init__(self, transport: Transport) -> None:
        """Ask through the given transport."""
        self._transport = transport

    @property
    def with_raw_response(self) -> CostsWithRawResponse:
        """The same methods, each answering with the response itself: its status, headers, bytes and `parse()`."""
        return CostsWithRawResponse(Costs(self._transport.raw()))

    def review_tariff(
        self,
        *,
        tariff: models.Tariff | mappings.Tariff,
        year: int,
    ) -> models.TariffReviewAnswer:
        """Is this tariff sound, and what does each hour cost?

        Holds a tariff against the calendar: every quarter of an hour of every kind of day has one
        price.

        A gap, a price stated twice, seasons that leave out a date, tiers out of order, a holiday that
        the country does not have: each is a finding that names the place. Prices are decimal text and
        never pass through a binary fraction.

        Args:
          tariff: Prices of energy by the local calendar, and what else stands on the bill. A sound one
            prices every hour once.
          year: The calendar year, by the tariff's own clock.
        """
        from . import models

        return self._transport.ask(
            "POST",
            "/v1/tariff-reviews",
            models.TariffReviewAnswer,
            body={
                "tariff": tariff,
                "year": year,
            },
            request=models.TariffReviewRequest,
        )

    def review_tariff_from(
        self,
        request: models.TariffReviewRequest | mappings.TariffReviewRequest | BaseModel | Mapping[str, object],
    ) -> models.TariffReviewAnswer:
        """Ask what `review_tariff` asks, with a whole request: a model, or a mapping such as JSON gives."""
        from . import models

        return self._transport.ask(
            "POST",
            "/v1/tariff-reviews",
            models.TariffReviewAnswer,
            body=request,
            request=models.TariffReviewRequest,
        )

    def compare_charging(
        self,
        *,
        tariffs: Sequence[models.Tariff | mappings.Tariff],
        year: int,
        house_load: models.NoLoad
        | mappings.NoLoad
        | models.AnnualEnergy
        | mappings.AnnualEnergy
        | models.IntervalEnergy
        | mappings.IntervalEnergy,
        charging: models.Charging | mappings.Charging,
        schedules: Sequence[
            models.OnArrival
            | mappings.OnArrival
            | models.Timer
            | mappings.Timer
            | models.LeastCost
            | mappings.LeastCost
            | models.SolarSurplusFirst
            | mappings.SolarSurplusFirst
        ],
        house_tariff: str | Omitted | None = OMITTED,
        first_month: int | Omitted | None = OMITTED,
        generation: models.NoLoad
        | mappings.NoLoad
        | models.AnnualGeneration
        | mappings.AnnualGeneration
        | models.IntervalEnergy
        | mappings.IntervalEnergy
        | Omitted
        | None = OMITTED,
        arrangements: Sequence[Literal["whole-house", "own-meter", "submeter"]] | Omitted | None = OMITTED,
        separate_meter: models.SeparateMeter | mappings.SeparateMeter | Omitted | None = OMITTED,
        submeter: models.Submeter | mappings.Submeter | Omitted | None = OMITTED,
        worked_bill: models.WorkedBill | mappings.WorkedBill | Omitted | None = OMITTED,
    ) -> models.ChargingComparisonAnswer:
        """What does charging cost a year; does a separate meter pay?

        Prices a year of house and vehicle by every tariff, meter arrangement and schedule that is asked
        for.

        What charging costs is the difference between bills with and without it, so that tiers, demand
        charges and a dearer price for the house count. Schedules that cannot bring what the worst
        winter day needs are named, with the current that would. Of a separate meter the pay-back, the
        net present value and the break-even are worked out.

        Args:
          year: Year in which the twelve priced months begin.
          charging: What the vehicle needs, where it charges, and when it is there. A night belongs to
            its arrival date.
          house_tariff: Name of the tariff that the house is on today. Not stated: the first that may
            serve a whole house, which is to be verified.
          first_month: Calendar month with which they begin. Not stated: 1.
          generation: What the house generates behind its meter. Not stated: nothing.
          arrangements: Meters to compare; one stated twice counts once. whole-house: one meter for
            both. own-meter: the vehicle has its own meter and bill. submeter: the vehicle's reading is
            subtracted from the house's. Not stated: whole-house, and those whose costs are stated.
          separate_meter: Needed where a separate meter is to pay: without it nothing of that is judged.
          submeter: Costs of a submeter, where they are others than those of separate_meter.
          worked_bill: Not stated: the first month of the first option of the answer.
        """
        from . import models

        return self._transport.ask(
            "POST",
            "/v1/charging-cost-comparisons",
            models.ChargingComparisonAnswer,
            body={
                "tariffs": tariffs,
                "year": year,
                "house_load": house_load,
                "charging": charging,
                "schedules": schedules,
                "house_tariff": house_tariff,
                "first_month": first_month,
                "generation": generation,
                "arrangements": arrangements,
                "separate_meter": separate_meter,
                "submeter": submeter,
                "worked_bill": worked_bill,
            },
            request=models.ChargingComparisonRequest,
        )

    def compare_charging_from(
        self,
        request: models.ChargingComparisonRequest
        | mappings.ChargingComparisonRequest
        | BaseModel
        | Mapping[str, object],
    ) -> models.ChargingComparisonAnswer:
        """Ask what `compare_charging` asks, with a whole request: a model, or a mapping such as JSON gives."""
        from . import models

        return self._transport.ask(
            "POST",
            "/v1/charging-cost-comparisons",
            models.ChargingComparisonAnswer,
            body=request,
            request=models.ChargingComparisonRequest,
        )

    def estimate_installation(
        self,
        *,
        circuit: models.CircuitDesignRequest | mappings.CircuitDesignRequest,
        site: models.Site | mappings.Site | Omitted | None = OMITTED,
        supplies: models.Supplies | mappings.Supplies | Omitted | None = OMITTED,
        trench: models.Trench | mappings.Trench | Omitted | None = OMITTED,
        waste: models.Waste | mappings.Waste | Omitted | None = OMITTED,
        markup_percent: float | Omitted | None = OMITTED,
        tax: models.Tax | mappings.Tax | Omitted | None = OMITTED,
        price_book: models.PriceBook | mappings.PriceBook | Omitted | None = OMITTED,
        labour_table: models.LabourTable | mappings.LabourTable | Omitted | None = OMITTED,
        risk: models.Risk | mappings.Risk | Omitted | None = OMITTED,
    ) -> models.InstallationEstimateAnswer:
        """What will the installation take and cost?

        Takes material, labour and fees off a circuit's design, and prices them by a price book and a
        labour table.

        Quantities come from the design that a circuit design answers with, and from nothing else. Each
        price has a low, a likely and a high value; what has none is left unpriced and named. Without a
        price book the demo book is used, whose prices are invented.

        Args:
          circuit: The body of a circuit design; its design is what is taken off.
          site: The site as the work meets it.
          supplies: What belongs to the job beside the circuit. What is not stated is excluded, and the
            answer says so.
          trench: For segments underground. Not stated: the trench stays unpriced.
          waste: What is bought beyond what is built in. What is not stated is common practice, and is
            to be verified.
          markup_percent: Of material, labour and fees together. Not stated: none.
          tax: Not stated: excluded.
          price_book: Not stated: the demo book, whose prices are invented.
          labour_table: Not stated: the demo table, whose hourly rate is invented.
          risk: How the spread of the total is drawn.
        """
        from . import models

        return self._transport.ask(
            "POST",
            "/v1/installation-estimates",
            models.InstallationEstimateAnswer,
            body={
                "circuit": circuit,
                "site": site,
                "supplies": supplies,
                "trench": trench,
                "waste": waste,
                "markup_percent": markup_percent,
                "tax": tax,
                "price_book": price_book,
                "labour_table": labour_table,
                "risk": risk,
            },
            request=models.InstallationEstimateRequest,
        )

    def estimate_installation_from(
        self,
        request: models.InstallationEstimateRequest
        | mappings.InstallationEstimateRequest
        | BaseModel
        | Mapping[str, object],
    ) -> models.InstallationEstimateAnswer:
        """Ask what `estimate_installation` asks, with a whole request: a model, or a mapping such as JSON gives."""
        from . import models

        return self._transport.ask(
            "POST",
            "/v1/installation-estimates",
            models.InstallationEstimateAnswer,
            body=request,
            request=models.InstallationEstimateRequest,
        )


class CostsWithRawResponse:
    """The questions of `client.costs.with_raw_response`."""

    def __init__(self, resource: Costs) -> None:
        """Take the methods of a resource whose transport answers raw."""
        self.review_tariff = raw_method(resource.review_tariff)
        self.review_tariff_from = raw_method(resource.review_tariff_from)
        self.compare_charging = raw_method(resource.compare_charging)
        self.compare_charging_from = raw_method(resource.compare_charging_from)
        self.estimate_installation = raw_method(resource.estimate_installation)
        self.estimate_installation_from = raw_method(resource.estimate_installation_from)


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
        self.services = Services(transport)
        self.costs = Costs(transport)
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
        price_book: models.PriceBook | mappings.PriceBook | Omitted | None = OMITTED,
        labour_table: models.LabourTable | mappings.LabourTable | Omitted | None = OMITTED,
        demo_prices: bool | Omitted | None = OMITTED,
        job: models.JobFacts | mappings.JobFacts | Omitted | None = OMITTED,
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
          price_book: What things cost. Not stated: no cost is estimated, unless demo_prices asks for
            it.
          labour_table: What work takes. Not stated: the demo table, whose hourly rate is invented.
          demo_prices: Whether the demo book, whose prices are invented, stands in for a price book.
          job: What an installation estimate is told beside circuit and prices; for the cost.
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
                "price_book": price_book,
                "labour_table": labour_table,
                "demo_prices": demo_prices,
                "job": job,
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


class AsyncServices:
    """The questions of `client.services`."""

    def __init__(self, transport: AsyncTransport) -> None:
        """Ask through the given transport."""
        self._transport = transport

    @property
    def with_raw_response(self) -> AsyncServicesWithRawResponse:
        """The same methods, each answering with the response itself: its status, headers, bytes and `parse()`."""
        return AsyncServicesWithRawResponse(AsyncServices(self._transport.raw()))

    async def calculate_load(
        self,
        *,
        edition: Literal["nec-2017", "nec-2020", "nec-2023", "nec-2026"],
        dwelling: models.Dwelling | mappings.Dwelling,
        jurisdiction: str | Omitted | None = OMITTED,
        readings: models.Readings | mappings.Readings | Omitted | None = OMITTED,
        occupancy: Literal["one-family", "two-family", "multifamily", "other"] | Omitted | None = OMITTED,
        service: models.DwellingService | mappings.DwellingService | Omitted | None = OMITTED,
        methods: Sequence[Literal["standard", "optional-new", "optional-existing"]]
        | Omitted
        | None = OMITTED,
    ) -> models.LoadCalculationAnswer:
        """What is this dwelling's load by each permitted method?

        Calculates a dwelling's load by the standard method, the optional one and the one for existing
        dwellings.

        Every line has its connected load, its demand factor, its demand and its section; the lines of a
        method add up to its total. Each method says whether it may be used here and which service it
        asks for at least.

        Args:
          edition: Code edition to apply.
          dwelling: One dwelling unit and what stands in it. A list that is not stated is empty.
          jurisdiction: Place, for the record; local amendments are not applied.
          readings: Readings of disputed provisions that the caller chooses; GET /v1/editions/{edition}
            lists them.
          occupancy: Kind of building; decides on the least service. Not stated: one-family.
          service: Not stated: loads that need a voltage and all currents are undetermined.
          methods: Methods to calculate by. Not stated: all. One that is named twice is calculated once.
        """
        from . import models

        return await self._transport.ask(
            "POST",
            "/v1/load-calculations",
            models.LoadCalculationAnswer,
            body={
                "edition": edition,
                "dwelling": dwelling,
                "jurisdiction": jurisdiction,
                "readings": readings,
                "occupancy": occupancy,
                "service": service,
                "methods": methods,
            },
            request=models.LoadCalculationRequest,
        )

    async def calculate_load_from(
        self,
        request: models.LoadCalculationRequest
        | mappings.LoadCalculationRequest
        | BaseModel
        | Mapping[str, object],
    ) -> models.LoadCalculationAnswer:
        """Ask what `calculate_load` asks, with a whole request: a model, or a mapping such as JSON gives."""
        from . import models

        return await self._transport.ask(
            "POST",
            "/v1/load-calculations",
            models.LoadCalculationAnswer,
            body=request,
            request=models.LoadCalculationRequest,
        )

    async def review_capacity(
        self,
        *,
        edition: Literal["nec-2017", "nec-2020", "nec-2023", "nec-2026"],
        service: models.ReviewedService | mappings.ReviewedService,
        existing_load: models.CalculatedExistingLoad
        | mappings.CalculatedExistingLoad
        | models.MeasuredExistingLoad
        | mappings.MeasuredExistingLoad,
        chargers: Sequence[models.AddedCharger | mappings.AddedCharger],
        jurisdiction: str | Omitted | None = OMITTED,
        readings: models.Readings | mappings.Readings | Omitted | None = OMITTED,
        occupancy: Literal["one-family", "two-family", "multifamily", "other"] | Omitted | None = OMITTED,
        management: models.EnergyManagement | mappings.EnergyManagement | Omitted | None = OMITTED,
        shared_circuits: Sequence[models.SharedCircuit | mappings.SharedCircuit] | Omitted | None = OMITTED,
    ) -> models.CapacityReviewAnswer:
        """Does the service carry the charger; if not, what would make it fit?

        Holds chargers and the load that is there already against the service, its main breaker and its
        busbar.

        The load that is there is calculated or measured; a measured one has to meet every condition of
        the code. An energy management is reviewed with it: its setting, and what happens when its link
        is lost.

        Args:
          edition: Code edition to apply.
          service: The service and its panel.
          chargers: The chargers to be added.
          jurisdiction: Place, for the record; local amendments are not applied.
          readings: Readings of disputed provisions that the caller chooses; GET /v1/editions/{edition}
            lists them.
          occupancy: Kind of building; decides on the service conductors. Not stated: unknown.
          management: Energy management of the service. Not stated: none.
          shared_circuits: Circuits that several of the chargers share.
        """
        from . import models

        return await self._transport.ask(
            "POST",
            "/v1/service-capacity-reviews",
            models.CapacityReviewAnswer,
            body={
                "edition": edition,
                "service": service,
                "existing_load": existing_load,
                "chargers": chargers,
                "jurisdiction": jurisdiction,
                "readings": readings,
                "occupancy": occupancy,
                "management": management,
                "shared_circuits": shared_circuits,
            },
            request=models.CapacityReviewRequest,
        )

    async def review_capacity_from(
        self,
        request: models.CapacityReviewRequest
        | mappings.CapacityReviewRequest
        | BaseModel
        | Mapping[str, object],
    ) -> models.CapacityReviewAnswer:
        """Ask what `review_capacity` asks, with a whole request: a model, or a mapping such as JSON gives."""
        from . import models

        return await self._transport.ask(
            "POST",
            "/v1/service-capacity-reviews",
            models.CapacityReviewAnswer,
            body=request,
            request=models.CapacityReviewRequest,
        )

    async def read_interval_data(
        self,
        *,
        series: models.RegularSeries | mappings.RegularSeries | models.StampedSeries | mappings.StampedSeries,
        edition: Literal["nec-2017", "nec-2020", "nec-2023", "nec-2026"] | Omitted | None = OMITTED,
        jurisdiction: str | Omitted | None = OMITTED,
        readings: models.Readings | mappings.Readings | Omitted | None = OMITTED,
        time_zone: str | Omitted | None = OMITTED,
        system: Literal["split-phase-120-240", "wye-208y-120"] | Omitted | None = OMITTED,
        phases: Literal[1, 3] | Omitted | None = OMITTED,
        has_generation: bool | Omitted | None = OMITTED,
        leg_assumption: Literal["balanced", "all-on-one-leg"] | Omitted | None = OMITTED,
    ) -> models.IntervalDataAnswer:
        """Is this meter data fit for use, and what is its measured demand?

        Reads meter readings as JSON, as CSV or as Green Button XML, and says how good they are.

        What the readings themselves have wrong is answered as findings that name the place: gaps,
        duplicates, readings out of order, registers sent as intervals, rows that cannot be read. The
        query says what a CSV or Green Button file does not say itself; a field of it that means nothing
        for the body is named in a recommendation.

        The measured demand is the greatest average over the data's own interval. Where that is longer
        than 15 minutes, the answer bounds the 15-minute demand within it and says how.

        Args:
          edition: The code edition whose conditions of a measured demand are applied. Not stated: the
            findings that rest on them are undetermined.
          jurisdiction: Place, for the record; local amendments are not applied.
          readings: Readings of disputed provisions that the caller chooses; GET /v1/editions/{edition}
            lists them.
          time_zone: IANA name of the zone of stamps that bear no offset, and of months and days. Not
            stated: stamps need an offset.
          system: System that the meter measures, for amperes. Not stated: amperes are left out.
          phases: Phases that the meter measures; 3 on a wye system only. Not stated: 1.
          has_generation: Whether the premises have solar or other generation, or storage. Not stated:
            unknown.
          leg_assumption: How the demand lies on the legs, for amperes. Not stated: balanced, which is
            to be verified.
        """
        from . import models

        return await self._transport.ask(
            "POST",
            "/v1/interval-data",
            models.IntervalDataAnswer,
            body={
                "series": series,
                "edition": edition,
                "jurisdiction": jurisdiction,
                "readings": readings,
                "time_zone": time_zone,
                "system": system,
                "phases": phases,
                "has_generation": has_generation,
                "leg_assumption": leg_assumption,
            },
            request=models.IntervalDataRequest,
        )

    async def read_interval_data_from(
        self,
        request: models.IntervalDataRequest | mappings.IntervalDataRequest | BaseModel | Mapping[str, object],
    ) -> models.IntervalDataAnswer:
        """Ask what `read_interval_data` asks, with a whole request: a model, or a mapping such as JSON gives."""
        from . import models

        return await self._transport.ask(
            "POST",
            "/v1/interval-data",
            models.IntervalDataAnswer,
            body=request,
            request=models.IntervalDataRequest,
        )

    async def read_interval_csv(
        self,
        source: Source,
        *,
        edition: Literal["nec-2017", "nec-2020", "nec-2023", "nec-2026"] | Omitted | None = OMITTED,
        jurisdiction: str | Omitted | None = OMITTED,
        time_zone: str | Omitted | None = OMITTED,
        system: Literal["split-phase-120-240", "wye-208y-120"] | Omitted | None = OMITTED,
        phases: Literal[1, 3] | Omitted | None = OMITTED,
        has_generation: bool | Omitted | None = OMITTED,
        leg_assumption: Literal["balanced", "all-on-one-leg"] | Omitted | None = OMITTED,
        measured_with_generation: Literal["refused", "measured-gross"] | Omitted | None = OMITTED,
        measured_demand_interval: Literal["fifteen-minutes", "as-metered"] | Omitted | None = OMITTED,
        unit: Literal["energy-wh", "energy-kwh", "power-w", "power-kw", "register-wh", "register-kwh"]
        | Omitted
        | None = OMITTED,
        time_column: str | Omitted | None = OMITTED,
        date_column: str | Omitted | None = OMITTED,
        time_of_day_column: str | Omitted | None = OMITTED,
        end_column: str | Omitted | None = OMITTED,
        value_column: str | Omitted | None = OMITTED,
        first_value_column: str | Omitted | None = OMITTED,
        last_value_column: str | Omitted | None = OMITTED,
        quality_column: str | Omitted | None = OMITTED,
        stamps_at: Literal["start", "end"] | Omitted | None = OMITTED,
        delimiter: Literal["comma", "semicolon", "tab", "pipe"] | Omitted | None = OMITTED,
        decimal_mark: Literal["point", "comma"] | Omitted | None = OMITTED,
        date_order: Literal["year-month-day", "month-day-year", "day-month-year"] | Omitted | None = OMITTED,
        interval_minutes: int | Omitted | None = OMITTED,
    ) -> models.IntervalDataAnswer:
        """Is this meter data fit for use, and what is its measured demand?

        Asks what `read_interval_data` asks, with a body of text/csv.

        Args:
          source: A table with one reading a row, or one day a row; the query names its columns and
            their unit. Bytes, or the path of a file that holds them.
          edition: As in a JSON body.
          jurisdiction: Place, for the record; local amendments are not applied.
          time_zone: IANA name of the zone of stamps that bear no offset, and of months and days. Not
            stated: stamps need an offset.
          system: System that the meter measures, for amperes. Not stated: amperes are left out.
          phases: Phases that the meter measures; 3 on a wye system only. Not stated: 1.
          has_generation: Whether the premises have solar or other generation, or storage. Not stated:
            unknown.
          leg_assumption: How the demand lies on the legs, for amperes. Not stated: balanced, which is
            to be verified.
          measured_with_generation: Reading of the interpretation of this name.
          measured_demand_interval: Reading of the interpretation of this name.
          unit: CSV: What the values are: energy of each interval, average power over it, or the
            register of the meter at the stamp.
          time_column: CSV: column with date and time of each reading.
          date_column: CSV: column with the date, beside a time column or before a day's values in one
            row.
          time_of_day_column: CSV: column with the time of day; the date has its own.
          end_column: CSV: column with the end of each interval: date and time, or time of day beside a
            date.
          value_column: CSV: column with the value.
          first_value_column: CSV with one row a day: column of the day's first interval; the others
            follow it.
          last_value_column: CSV with one row a day: column of the day's last interval. Not stated: the
            last column.
          quality_column: CSV: column that says how the value came about.
          stamps_at: CSV: Whether a stamp is the start or the end of its interval. Not stated: start,
            which is to be verified.
          delimiter: CSV. Not stated: the one that parts the named columns.
          decimal_mark: CSV. Not stated: told from the values where they leave no doubt.
          date_order: CSV. Not stated: told from the dates where they leave no doubt.
          interval_minutes: CSV: length of every interval. Not stated: told from the stamps.
        """
        from . import models

        return await self._transport.ask(
            "POST",
            "/v1/interval-data",
            models.IntervalDataAnswer,
            query={
                "edition": edition,
                "jurisdiction": jurisdiction,
                "time_zone": time_zone,
                "system": system,
                "phases": phases,
                "has_generation": has_generation,
                "leg_assumption": leg_assumption,
                "measured-with-generation": measured_with_generation,
                "measured-demand-interval": measured_demand_interval,
                "unit": unit,
                "time_column": time_column,
                "date_column": date_column,
                "time_of_day_column": time_of_day_column,
                "end_column": end_column,
                "value_column": value_column,
                "first_value_column": first_value_column,
                "last_value_column": last_value_column,
                "quality_column": quality_column,
                "stamps_at": stamps_at,
                "delimiter": delimiter,
                "decimal_mark": decimal_mark,
                "date_order": date_order,
                "interval_minutes": interval_minutes,
            },
            body=source,
            media_type="text/csv",
        )

    async def read_green_button(
        self,
        source: Source,
        *,
        edition: Literal["nec-2017", "nec-2020", "nec-2023", "nec-2026"] | Omitted | None = OMITTED,
        jurisdiction: str | Omitted | None = OMITTED,
        time_zone: str | Omitted | None = OMITTED,
        system: Literal["split-phase-120-240", "wye-208y-120"] | Omitted | None = OMITTED,
        phases: Literal[1, 3] | Omitted | None = OMITTED,
        has_generation: bool | Omitted | None = OMITTED,
        leg_assumption: Literal["balanced", "all-on-one-leg"] | Omitted | None = OMITTED,
        measured_with_generation: Literal["refused", "measured-gross"] | Omitted | None = OMITTED,
        measured_demand_interval: Literal["fifteen-minutes", "as-metered"] | Omitted | None = OMITTED,
        meter_reading: str | Omitted | None = OMITTED,
    ) -> models.IntervalDataAnswer:
        """Is this meter data fit for use, and what is its measured demand?

        Asks what `read_interval_data` asks, with a body of application/xml.

        Args:
          source: A Green Button file: an Atom feed of the Energy Services Provider Interface. Bytes, or
            the path of a file that holds them.
          edition: As in a JSON body.
          jurisdiction: Place, for the record; local amendments are not applied.
          time_zone: IANA name of the zone of stamps that bear no offset, and of months and days. Not
            stated: stamps need an offset.
          system: System that the meter measures, for amperes. Not stated: amperes are left out.
          phases: Phases that the meter measures; 3 on a wye system only. Not stated: 1.
          has_generation: Whether the premises have solar or other generation, or storage. Not stated:
            unknown.
          leg_assumption: How the demand lies on the legs, for amperes. Not stated: balanced, which is
            to be verified.
          measured_with_generation: Reading of the interpretation of this name.
          measured_demand_interval: Reading of the interpretation of this name.
          meter_reading: Green Button with several series: title or self link of the usage point or
            meter reading that is meant.
        """
        from . import models

        return await self._transport.ask(
            "POST",
            "/v1/interval-data",
            models.IntervalDataAnswer,
            query={
                "edition": edition,
                "jurisdiction": jurisdiction,
                "time_zone": time_zone,
                "system": system,
                "phases": phases,
                "has_generation": has_generation,
                "leg_assumption": leg_assumption,
                "measured-with-generation": measured_with_generation,
                "measured-demand-interval": measured_demand_interval,
                "meter_reading": meter_reading,
            },
            body=source,
            media_type="application/xml",
        )

    async def study_managed_charging(
        self,
        *,
        edition: Literal["nec-2017", "nec-2020", "nec-2023", "nec-2026"],
        service: models.StudiedService | mappings.StudiedService,
        house_load: models.HouseLoad | mappings.HouseLoad,
        chargers: Sequence[models.ManagedCharger | mappings.ManagedCharger],
        management: models.Management | mappings.Management,
        jurisdiction: str | Omitted | None = OMITTED,
        readings: models.Readings | mappings.Readings | Omitted | None = OMITTED,
    ) -> models.ManagedChargingAnswer:
        """What does load-managed charging deliver, night by night?

        Simulates every interval of a house's load with the vehicles that charge under an energy
        management.

        In each interval the chargers get what the control setting and its margin leave on the largest
        leg, in whole amperes; below 6 A a vehicle waits. Several vehicles share by the rule that the
        request states.

        Simulated nights are no proof of safety: that needs listed equipment, verified sensors and a
        tested lost link.

        Args:
          edition: The code edition that the answer applies.
          service: The service that house and chargers share.
          house_load: What the house draws without the chargers; state either energy_wh or
            leg_currents_a.
          chargers: The chargers under management.
          management: The energy management that holds the largest leg at or below a setting by lowering
            the chargers.
          jurisdiction: Place, for the record; local amendments are not applied.
          readings: Readings of disputed provisions that the caller chooses; GET /v1/editions/{edition}
            lists them.
        """
        from . import models

        return await self._transport.ask(
            "POST",
            "/v1/managed-charging-studies",
            models.ManagedChargingAnswer,
            body={
                "edition": edition,
                "service": service,
                "house_load": house_load,
                "chargers": chargers,
                "management": management,
                "jurisdiction": jurisdiction,
                "readings": readings,
            },
            request=models.ManagedChargingRequest,
        )

    async def study_managed_charging_from(
        self,
        request: models.ManagedChargingRequest
        | mappings.ManagedChargingRequest
        | BaseModel
        | Mapping[str, object],
    ) -> models.ManagedChargingAnswer:
        """Ask what `study_managed_charging` asks, with a whole request: a model, or a mapping such as JSON gives."""
        from . import models

        return await self._transport.ask(
            "POST",
            "/v1/managed-charging-studies",
            models.ManagedChargingAnswer,
            body=request,
            request=models.ManagedChargingRequest,
        )


class AsyncServicesWithRawResponse:
    """The questions of `client.services.with_raw_response`."""

    def __init__(self, resource: AsyncServices) -> None:
        """Take the methods of a resource whose transport answers raw."""
        self.calculate_load = raw_later_method(resource.calculate_load)
        self.calculate_load_from = raw_later_method(resource.calculate_load_from)
        self.review_capacity = raw_later_method(resource.review_capacity)
        self.review_capacity_from = raw_later_method(resource.review_capacity_from)
        self.read_interval_data = raw_later_method(resource.read_interval_data)
        self.read_interval_data_from = raw_later_method(resource.read_interval_data_from)
        self.read_interval_csv = raw_later_method(resource.read_interval_csv)
        self.read_green_button = raw_later_method(resource.read_green_button)
        self.study_managed_charging = raw_later_method(resource.study_managed_charging)
        self.study_managed_charging_from = raw_later_method(resource.study_managed_charging_from)


class AsyncCosts:
    """The questions of `client.costs`."""

    def __init__(self, transport: AsyncTransport) -> None:
        """Ask through the given transport."""
        self._transport = transport

    @property
    def with_raw_response(self) -> AsyncCostsWithRawResponse:
        """The same methods, each answering with the response itself: its status, headers, bytes and `parse()`."""
        return AsyncCostsWithRawResponse(AsyncCosts(self._transport.raw()))

    async def review_tariff(
        self,
        *,
        tariff: models.Tariff | mappings.Tariff,
        year: int,
    ) -> models.TariffReviewAnswer:
        """Is this tariff sound, and what does each hour cost?

        Holds a tariff against the calendar: every quarter of an hour of every kind of day has one
        price.

        A gap, a price stated twice, seasons that leave out a date, tiers out of order, a holiday that
        the country does not have: each is a finding that names the place. Prices are decimal text and
        never pass through a binary fraction.

        Args:
          tariff: Prices of energy by the local calendar, and what else stands on the bill. A sound one
            prices every hour once.
          year: The calendar year, by the tariff's own clock.
        """
        from . import models

        return await self._transport.ask(
            "POST",
            "/v1/tariff-reviews",
            models.TariffReviewAnswer,
            body={
                "tariff": tariff,
                "year": year,
            },
            request=models.TariffReviewRequest,
        )

    async def review_tariff_from(
        self,
        request: models.TariffReviewRequest | mappings.TariffReviewRequest | BaseModel | Mapping[str, object],
    ) -> models.TariffReviewAnswer:
        """Ask what `review_tariff` asks, with a whole request: a model, or a mapping such as JSON gives."""
        from . import models

        return await self._transport.ask(
            "POST",
            "/v1/tariff-reviews",
            models.TariffReviewAnswer,
            body=request,
            request=models.TariffReviewRequest,
        )

    async def compare_charging(
        self,
        *,
        tariffs: Sequence[models.Tariff | mappings.Tariff],
        year: int,
        house_load: models.NoLoad
        | mappings.NoLoad
        | models.AnnualEnergy
        | mappings.AnnualEnergy
        | models.IntervalEnergy
        | mappings.IntervalEnergy,
        charging: models.Charging | mappings.Charging,
        schedules: Sequence[
            models.OnArrival
            | mappings.OnArrival
            | models.Timer
            | mappings.Timer
            | models.LeastCost
            | mappings.LeastCost
            | models.SolarSurplusFirst
            | mappings.SolarSurplusFirst
        ],
        house_tariff: str | Omitted | None = OMITTED,
        first_month: int | Omitted | None = OMITTED,
        generation: models.NoLoad
        | mappings.NoLoad
        | models.AnnualGeneration
        | mappings.AnnualGeneration
        | models.IntervalEnergy
        | mappings.IntervalEnergy
        | Omitted
        | None = OMITTED,
        arrangements: Sequence[Literal["whole-house", "own-meter", "submeter"]] | Omitted | None = OMITTED,
        separate_meter: models.SeparateMeter | mappings.SeparateMeter | Omitted | None = OMITTED,
        submeter: models.Submeter | mappings.Submeter | Omitted | None = OMITTED,
        worked_bill: models.WorkedBill | mappings.WorkedBill | Omitted | None = OMITTED,
    ) -> models.ChargingComparisonAnswer:
        """What does charging cost a year; does a separate meter pay?

        Prices a year of house and vehicle by every tariff, meter arrangement and schedule that is asked
        for.

        What charging costs is the difference between bills with and without it, so that tiers, demand
        charges and a dearer price for the house count. Schedules that cannot bring what the worst
        winter day needs are named, with the current that would. Of a separate meter the pay-back, the
        net present value and the break-even are worked out.

        Args:
          year: Year in which the twelve priced months begin.
          charging: What the vehicle needs, where it charges, and when it is there. A night belongs to
            its arrival date.
          house_tariff: Name of the tariff that the house is on today. Not stated: the first that may
            serve a whole house, which is to be verified.
          first_month: Calendar month with which they begin. Not stated: 1.
          generation: What the house generates behind its meter. Not stated: nothing.
          arrangements: Meters to compare; one stated twice counts once. whole-house: one meter for
            both. own-meter: the vehicle has its own meter and bill. submeter: the vehicle's reading is
            subtracted from the house's. Not stated: whole-house, and those whose costs are stated.
          separate_meter: Needed where a separate meter is to pay: without it nothing of that is judged.
          submeter: Costs of a submeter, where they are others than those of separate_meter.
          worked_bill: Not stated: the first month of the first option of the answer.
        """
        from . import models

        return await self._transport.ask(
            "POST",
            "/v1/charging-cost-comparisons",
            models.ChargingComparisonAnswer,
            body={
                "tariffs": tariffs,
                "year": year,
                "house_load": house_load,
                "charging": charging,
                "schedules": schedules,
                "house_tariff": house_tariff,
                "first_month": first_month,
                "generation": generation,
                "arrangements": arrangements,
                "separate_meter": separate_meter,
                "submeter": submeter,
                "worked_bill": worked_bill,
            },
            request=models.ChargingComparisonRequest,
        )

    async def compare_charging_from(
        self,
        request: models.ChargingComparisonRequest
        | mappings.ChargingComparisonRequest
        | BaseModel
        | Mapping[str, object],
    ) -> models.ChargingComparisonAnswer:
        """Ask what `compare_charging` asks, with a whole request: a model, or a mapping such as JSON gives."""
        from . import models

        return await self._transport.ask(
            "POST",
            "/v1/charging-cost-comparisons",
            models.ChargingComparisonAnswer,
            body=request,
            request=models.ChargingComparisonRequest,
        )

    async def estimate_installation(
        self,
        *,
        circuit: models.CircuitDesignRequest | mappings.CircuitDesignRequest,
        site: models.Site | mappings.Site | Omitted | None = OMITTED,
        supplies: models.Supplies | mappings.Supplies | Omitted | None = OMITTED,
        trench: models.Trench | mappings.Trench | Omitted | None = OMITTED,
        waste: models.Waste | mappings.Waste | Omitted | None = OMITTED,
        markup_percent: float | Omitted | None = OMITTED,
        tax: models.Tax | mappings.Tax | Omitted | None = OMITTED,
        price_book: models.PriceBook | mappings.PriceBook | Omitted | None = OMITTED,
        labour_table: models.LabourTable | mappings.LabourTable | Omitted | None = OMITTED,
        risk: models.Risk | mappings.Risk | Omitted | None = OMITTED,
    ) -> models.InstallationEstimateAnswer:
        """What will the installation take and cost?

        Takes material, labour and fees off a circuit's design, and prices them by a price book and a
        labour table.

        Quantities come from the design that a circuit design answers with, and from nothing else. Each
        price has a low, a likely and a high value; what has none is left unpriced and named. Without a
        price book the demo book is used, whose prices are invented.

        Args:
          circuit: The body of a circuit design; its design is what is taken off.
          site: The site as the work meets it.
          supplies: What belongs to the job beside the circuit. What is not stated is excluded, and the
            answer says so.
          trench: For segments underground. Not stated: the trench stays unpriced.
          waste: What is bought beyond what is built in. What is not stated is common practice, and is
            to be verified.
          markup_percent: Of material, labour and fees together. Not stated: none.
          tax: Not stated: excluded.
          price_book: Not stated: the demo book, whose prices are invented.
          labour_table: Not stated: the demo table, whose hourly rate is invented.
          risk: How the spread of the total is drawn.
        """
        from . import models

        return await self._transport.ask(
            "POST",
            "/v1/installation-estimates",
            models.InstallationEstimateAnswer,
            body={
                "circuit": circuit,
                "site": site,
                "supplies": supplies,
                "trench": trench,
                "waste": waste,
                "markup_percent": markup_percent,
                "tax": tax,
                "price_book": price_book,
                "labour_table": labour_table,
                "risk": risk,
            },
            request=models.InstallationEstimateRequest,
        )

    async def estimate_installation_from(
        self,
        request: models.InstallationEstimateRequest
        | mappings.InstallationEstimateRequest
        | BaseModel
        | Mapping[str, object],
    ) -> models.InstallationEstimateAnswer:
        """Ask what `estimate_installation` asks, with a whole request: a model, or a mapping such as JSON gives."""
        from . import models

        return await self._transport.ask(
            "POST",
            "/v1/installation-estimates",
            models.InstallationEstimateAnswer,
            body=request,
            request=models.InstallationEstimateRequest,
        )


class AsyncCostsWithRawResponse:
    """The questions of `client.costs.with_raw_response`."""

    def __init__(self, resource: AsyncCosts) -> None:
        """Take the methods of a resource whose transport answers raw."""
        self.review_tariff = raw_later_method(resource.review_tariff)
        self.review_tariff_from = raw_later_method(resource.review_tariff_from)
        self.compare_charging = raw_later_method(resource.compare_charging)
        self.compare_charging_from = raw_later_method(resource.compare_charging_from)
        self.estimate_installation = raw_later_method(resource.estimate_installation)
        self.estimate_installation_from = raw_later_method(resource.estimate_installation_from)


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
        self.services = AsyncServices(transport)
        self.costs = AsyncCosts(transport)
        self.codebook = AsyncCodebook(transport)
        self.operations = AsyncOperations(transport)
