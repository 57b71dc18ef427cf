"""Rules about when the vehicle is there, and when its schedules let it charge."""

from branchwright.checks.charging_cost.charging_comparison.facts import SolarSurplusFirst, Timer
from branchwright.checks.charging_cost.charging_comparison.given import Given
from branchwright.checks.charging_cost.charging_comparison.rules.rule import rule
from branchwright.checks.charging_cost.charging_comparison.stays import DAY_MINUTES, within
from branchwright.findings import Finding
from branchwright.questions.local_days import WEEKDAYS


@rule("charging-stays", subject="arrival and departure", stops=("fail",), needs_year=True)
def charging_stays(given: Given) -> Finding:
    """Is the vehicle gone before it comes again, and are the times of each weekday stated once?

    Applies: always.
    Rests on: a night belongs to its arrival date, and two stays of one vehicle cannot overlap; a departure at or before
    the arrival is on the next day.
    Missing facts: weekdays without times of their own have those of all days.
    """
    named: dict[str, int] = {}
    for place, other in enumerate(given.request.charging.other_days or ()):
        for day in dict.fromkeys(other.weekdays):
            if day in named:
                return charging_stays.equal(
                    "twice",
                    "once",
                    f"The times of {day} are stated in other_days {named[day]} and {place}.",
                    f"/charging/other_days/{place}/weekdays",
                )
            named[day] = place
    week = given.stays.week
    for place, (_, departure) in enumerate(week):
        following = (place + 1) % 7
        arrives = week[following][0]
        if departure - DAY_MINUTES > arrives:
            pointer = "/charging/departure"
            if WEEKDAYS[place] in named:
                pointer = f"/charging/other_days/{named[WEEKDAYS[place]]}/departure"
            return charging_stays.equal(
                "overlap",
                "no overlap",
                f"The vehicle that came on {WEEKDAYS[place]} leaves at {_clock(departure - DAY_MINUTES)}, after it has "
                f"come again on {WEEKDAYS[following]} at {_clock(arrives)}.",
                pointer,
            )
    return charging_stays.passed("No two stays overlap.")


def _clock(minutes: int) -> str:
    return f"{minutes // 60:02}:{minutes % 60:02}"


@rule("charging-timer-windows", subject="schedules", needs_year=True)
def charging_timer_windows(given: Given) -> list[Finding]:
    """Does every window of a timer meet a stay of the vehicle?

    Applies: where a timer is among the schedules; one finding for each window that meets none.
    Rests on: a timer charges while the vehicle is there, and never else; such a window is a mistake in its times.
    Missing facts: none are asked for.
    """
    timers = [
        (place, schedule)
        for place, schedule in enumerate(given.request.schedules)
        if isinstance(schedule, Timer)
    ]
    if not timers:
        return [charging_timer_windows.not_applicable("No schedule is a timer.")]
    stays = sorted(set(given.stays.week))
    found: list[Finding] = []
    for place, timer in timers:
        for number, window in enumerate(timer.windows):
            if not any(within(stay, [window]) for stay in stays):
                shown = ", ".join(f"{_clock(begin)} to {_clock(end % DAY_MINUTES)}" for begin, end in stays)
                found.append(
                    charging_timer_windows.equal(
                        f"{window.begin} to {window.end}",
                        f"within {shown}",
                        f"The vehicle is never there from {window.begin} to {window.end}; it stays from {shown}.",
                        f"/schedules/{place}/windows/{number}",
                    )
                )
    return found or [charging_timer_windows.passed("Every window meets a stay.")]


@rule("charging-solar-surplus", subject="schedules")
def charging_solar_surplus(given: Given) -> Finding:
    """Is there a generation, and a meter shared with the house, where charging is to take its surplus first?

    Applies: where solar-surplus-first is among the schedules.
    Rests on: a surplus is what generation leaves over behind the same meter. Without it that schedule is not priced.
    Missing facts: generation that is not stated is none, and fails.
    """
    for place, schedule in enumerate(given.request.schedules):
        if not isinstance(schedule, SolarSurplusFirst):
            continue
        if not given.has_generation:
            return charging_solar_surplus.equal(
                "none", "a generation", "No generation is stated that could leave a surplus.", "/generation"
            )
        if "whole-house" not in given.arrangements:
            return charging_solar_surplus.none_of(
                ", ".join(given.arrangements),
                ["whole-house"],
                "The surplus lies behind the house's meter; whole-house is not among the arrangements.",
                f"/schedules/{place}",
            )
        return charging_solar_surplus.passed("There is a generation behind the house's meter.")
    return charging_solar_surplus.not_applicable("No schedule takes a surplus first.")
