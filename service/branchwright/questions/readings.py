"""The readings of disputed provisions that a caller chooses, and the codebook bound to them."""

from typing import Annotated, Literal

from pydantic import Field

from branchwright.codebook import Book, at
from branchwright.questions.fields import Edition, Facts


class Readings(Facts):
    """Readings of disputed provisions that the caller chooses; GET /v1/editions/{edition} lists them."""

    liquidtight_temperature: Annotated[
        Literal["operating-temperature", "sixty-degree-column"] | None, Field(alias="liquidtight-temperature")
    ] = None
    grounding_near_miss: Annotated[
        Literal["strict", "within-rounding"] | None, Field(alias="grounding-near-miss")
    ] = None
    hardwired_outlet: Annotated[
        Literal["outlet", "not-an-outlet"] | None, Field(alias="hardwired-outlet")
    ] = None
    rooftop_clearance: Annotated[
        Literal["seven-eighths-inch", "three-quarters-inch"] | None, Field(alias="rooftop-clearance")
    ] = None
    setting_as_rating: Annotated[Literal["nameplate", "setting"] | None, Field(alias="setting-as-rating")] = (
        None
    )
    grounding_growth: Annotated[
        Literal["counts-correction", "exempts-correction"] | None, Field(alias="grounding-growth")
    ] = None
    permanently_wired_protection: Annotated[
        Literal["required", "not-enacted"] | None, Field(alias="permanently-wired-protection")
    ] = None
    sixty_ampere_receptacle: Annotated[
        Literal["printed", "not-printed"] | None, Field(alias="sixty-ampere-receptacle")
    ] = None
    charger_in_optional_method: Annotated[
        Literal["full-value", "in-the-pool"] | None, Field(alias="charger-in-optional-method")
    ] = None
    existing_heating_and_cooling: Annotated[
        Literal["in-the-pool", "left-out"] | None, Field(alias="existing-heating-and-cooling")
    ] = None
    added_heating_and_cooling: Annotated[
        Literal["at-full-value", "in-the-pool"] | None, Field(alias="added-heating-and-cooling")
    ] = None
    omitted_motor: Annotated[Literal["compared", "added"] | None, Field(alias="omitted-motor")] = None
    measured_with_generation: Annotated[
        Literal["refused", "measured-gross"] | None, Field(alias="measured-with-generation")
    ] = None
    measured_demand_interval: Annotated[
        Literal["fifteen-minutes", "as-metered"] | None, Field(alias="measured-demand-interval")
    ] = None
    charger_on_service: Annotated[
        Literal["at-125-percent", "at-its-load"] | None, Field(alias="charger-on-service")
    ] = None


def bind(edition: Edition, readings: Readings | None) -> Book:
    """Return the codebook bound to an edition and the readings that a request states."""
    return at(edition, readings.model_dump(by_alias=True, exclude_none=True) if readings else {})
