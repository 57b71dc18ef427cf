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


def bind(edition: Edition, readings: Readings | None) -> Book:
    """Return the codebook bound to an edition and the readings that a request states."""
    return at(edition, readings.model_dump(by_alias=True, exclude_none=True) if readings else {})
