"""What a managed-charging study answers with: open to growth, every field present."""

from dataclasses import dataclass
from typing import Annotated

from pydantic import Field

from branchwright.questions.answers import CodeAnswer


@dataclass(slots=True)
class StudiedNight:
    """The sessions that begin on one local date, of all chargers together. Energy is at the wall."""

    date: Annotated[str, Field(description="Local date of arrival.")]
    sessions: Annotated[int, Field(description="Sessions that begin on it.")]
    sessions_met: Annotated[int, Field(description="Those whose vehicle got what it needs.")]
    needed_kwh: float
    delivered_kwh: float
    unmet_kwh: float
    hours_paused: Annotated[
        float,
        Field(
            description="Hours in which a vehicle waited for current, summed over the vehicles: too little left, a "
            "resume delay, a turn of others or a missing reading."
        ),
    ]
    greatest_total_current_a: Annotated[
        float, Field(description="Greatest current of the largest leg while a vehicle was there, A.")
    ]
    met: Annotated[bool, Field(description="Whether every session of the night was met.")]


@dataclass(slots=True)
class StudiedSession:
    """One session of one vehicle. Energy is at the wall."""

    date: Annotated[str, Field(description="Local date of arrival.")]
    charger: Annotated[int, Field(description="Its place in the request, from 0.")]
    session: Annotated[int, Field(description="The session's place at that charger, from 0.")]
    arrival: Annotated[str, Field(description="Local time with its offset.")]
    departure: Annotated[str, Field(description="Local time with its offset.")]
    needed_kwh: float
    delivered_kwh: float
    unmet_kwh: float
    hours_paused: float


@dataclass(slots=True)
class StudiedCharger:
    """All sessions of one charger. Energy is at the wall."""

    charger: Annotated[int, Field(description="Its place in the request, from 0.")]
    name: str | None
    sessions: int
    sessions_met: int
    needed_kwh: float
    delivered_kwh: float
    unmet_kwh: float
    hours_paused: float


@dataclass(slots=True)
class StudiedYear:
    """All the readings, whether they are a year or not. Energy is at the wall."""

    days: Annotated[float, Field(description="Length of the readings in days of 24 h.")]
    nights: Annotated[
        int, Field(description="Local dates of arrival whose sessions all lie in the readings.")
    ]
    nights_met: int
    share_met_percent: Annotated[float | None, Field(description="Null without a night.")]
    sessions: int
    sessions_met: int
    sessions_left_out: Annotated[
        int,
        Field(
            description="Sessions of dates on which one begins before the readings or ends after them; not simulated."
        ),
    ]
    worst_night: Annotated[
        StudiedNight | None,
        Field(description="Most energy unmet; of those alike the most hours paused, then the earliest."),
    ]
    energy_needed_kwh: float
    energy_delivered_kwh: float
    unmet_kwh: float
    hours_paused: float
    greatest_total_current_a: Annotated[
        float | None,
        Field(
            description="Greatest current of the largest leg while a vehicle charged, A. Null if none did."
        ),
    ]
    greatest_house_current_a: Annotated[
        float | None, Field(description="Greatest current of the house alone on its largest leg, A.")
    ]
    hours_house_above_setting: Annotated[
        float, Field(description="Hours in which the house alone draws more than the control setting.")
    ]
    intervals_without_reading: Annotated[
        int, Field(description="Intervals whose reading is missing; nothing charges in them.")
    ]


@dataclass(slots=True)
class SettingPoint:
    """What one control setting would do, all else alike."""

    control_setting_a: float
    nights_met: int
    share_met_percent: float


@dataclass(slots=True)
class Smallest:
    """The smallest setting, and the service for it."""

    control_setting_a: Annotated[
        float | None,
        Field(description="Smallest control setting found at which every night is met, A; null if none is."),
    ]
    resolution_a: Annotated[
        float,
        Field(
            description="Step of the settings that were tried below it, A. With equal sharing a larger setting may "
            "meet fewer nights, so that a smaller one between those tried is possible."
        ),
    ]
    is_least: Annotated[
        bool, Field(description="Whether every smaller whole-ampere setting is known to miss a night.")
    ]
    settings_tried: Annotated[
        int, Field(description="Settings that were simulated, the stated one among them.")
    ]
    house_alone_a: Annotated[
        float, Field(description="Greatest current of the house alone on its largest leg, A.")
    ]
    service_rating_a: Annotated[
        float | None,
        Field(
            description="Smallest standard rating for that setting by the edition's factor, and for what the house "
            "alone draws at the same factor, A; where the edition counts them, with 6 A for each charger. Null without "
            "a setting or beyond the last standard rating."
        ),
    ]
    why: Annotated[str, Field(description="How they were found, in words.")]


@dataclass(slots=True)
class DayInterval:
    """One interval of the worst day."""

    at: Annotated[str, Field(description="Start, local time with its offset.")]
    house_a: Annotated[
        float | None, Field(description="House on its largest leg, A; null where the reading is missing.")
    ]
    available_a: Annotated[
        float,
        Field(description="Whole amperes that the management leaves to the chargers; 0 while they pause."),
    ]
    charging_a: Annotated[float, Field(description="What all chargers draw together, A.")]
    total_a: Annotated[float | None, Field(description="Both together, A.")]
    vehicles: Annotated[int, Field(description="Vehicles that are there and still need energy.")]


@dataclass(slots=True)
class WorstDay:
    """The day of the worst night: from its local midnight to the next, or to the last departure of the night."""

    date: str
    control_setting_a: float
    intervals: list[DayInterval]


class ManagedChargingAnswer(CodeAnswer):
    """What load-managed charging delivers, night by night."""

    nights: Annotated[
        list[StudiedNight],
        Field(
            description="One for each local date of arrival, all chargers together; empty where the findings say why "
            "nothing was simulated."
        ),
    ]
    unmet_sessions: Annotated[
        list[StudiedSession], Field(description="Sessions that were not met, most unmet first, at most 100.")
    ]
    by_charger: Annotated[list[StudiedCharger], Field(description="One for each charger, in order.")]
    year: Annotated[StudiedYear | None, Field(description="Null where nothing was simulated.")]
    by_control_setting: Annotated[
        list[SettingPoint],
        Field(description="Nights met at other control settings, smallest first; a curve for a picture."),
    ]
    smallest: Annotated[Smallest | None, Field(description="Null where nothing was simulated.")]
    worst_day: Annotated[WorstDay | None, Field(description="Null where no night was simulated.")]
