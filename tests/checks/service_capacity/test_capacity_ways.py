"""Largest charging currents, and the ways to make the chargers fit: each judged again as a caller would send it."""

import pytest
from tests.checks.printed import standard_ratings_a
from tests.checks.service_capacity.capacity_requests import (
    MANAGEMENT,
    SPLIT_PHASE,
    YEAR,
    asked,
    at,
    calculated,
    finding,
    reviewed,
    ways,
    with_way,
)

FULL = asked(
    service={**SPLIT_PHASE, "main_breaker_a": 100, "busbar_rating_a": 125},
    existing_load={**YEAR, "measured_demand_w": 12_000},
    chargers=[{"charging_current_a": 48, "rated_current_a": 48, "setting_access": "restricted"}],
)
"""62.5 A are there and 37.5 A left, which 125 percent of 30 A take."""

LADDER = ("lower-setting", "energy-management", "shared-circuit", "panel-upgrade", "service-upgrade")
"""Cheapest first: common practice, no source."""


def test_nothing_is_proposed_where_nothing_needs_mending() -> None:
    answer = reviewed(asked())
    assert answer["capacity"]["ways_to_fit"] == []


def test_the_ladder_is_climbed_from_the_cheapest_way_up() -> None:
    found = ways(reviewed(FULL))
    assert list(found) == ["lower-setting", "energy-management", "service-upgrade"]
    assert found["lower-setting"]["charging_current_a"] == 30
    assert found["energy-management"]["charging_current_a"] == 48
    assert found["service-upgrade"]["charging_current_a"] == 48
    # 122.5 A round to 123 A: the next standard rating is 125 A.
    assert found["service-upgrade"]["upgrade_to_a"] == 125
    assert found["lower-setting"]["upgrade_to_a"] is found["energy-management"]["upgrade_to_a"] is None


REQUESTS = {
    "a charger too large": FULL,
    "a calculated load": {**FULL, "existing_load": calculated()},
    "two chargers": {
        **FULL,
        "chargers": [
            {"charging_current_a": 40, "rated_current_a": 40},
            {"charging_current_a": 32, "rated_current_a": 48, "setting_access": "restricted"},
        ],
    },
    "a busbar too small": at(at(FULL, "/service/busbar_rating_a", 60), "/chargers/0/charging_current_a", 24),
    "a setting too high": {**FULL, "management": {**MANAGEMENT, "control_setting_a": 100}},
    "full current on a lost link": {**FULL, "management": {**MANAGEMENT, "fail_safe_current_a": 48}},
    "management that nobody listed": {**FULL, "management": {**MANAGEMENT, "listed": False}},
    "a backfed busbar": {
        **FULL,
        "service": {
            **FULL["service"],
            "backfeed_breaker_a": 60,
            "backfeed_opposite_main": True,
        },
    },
    "hourly data": {**FULL, "existing_load": {**YEAR, "averaging_minutes": 60, "measured_demand_w": 2000}},
    "a full house": {**FULL, "existing_load": {**YEAR, "measured_demand_w": 20_000}},
}


@pytest.mark.parametrize("edition", ["nec-2017", "nec-2020", "nec-2023", "nec-2026"])
@pytest.mark.parametrize("name", REQUESTS)
def test_every_way_holds_when_it_is_asked_again(name: str, edition: str) -> None:
    request = {**REQUESTS[name], "edition": edition}
    answer = reviewed(request)
    found = answer["capacity"]["ways_to_fit"]
    # The editions to 2020 ask for no listing.
    assert (found == []) == (answer["verdict"] == "no-failure-found"), "there is always a larger service"
    assert [way["way"] for way in found] == [way for way in LADDER if way in ways(answer)]
    for way in found:
        again = reviewed(with_way(request, way))
        assert again["verdict"] == way["verdict"]
        for rule in ("service-capacity", "main-breaker-capacity", "busbar-capacity", "lost-link-capacity"):
            assert finding(again, rule)["outcome"] in ("pass", "not-applicable"), (way["way"], rule)
        if way["upgrade_to_a"] is not None:
            assert way["upgrade_to_a"] in standard_ratings_a(edition)


@pytest.mark.parametrize("name", REQUESTS)
def test_no_way_removes_protection_or_enlarges_a_breaker_on_conductors_that_are_there(name: str) -> None:
    request = REQUESTS[name]
    for way in reviewed(request)["capacity"]["ways_to_fit"]:
        changed = {change["pointer"] for change in way["changes"]}
        after = with_way(request, way)
        if "management" in request:
            assert after["management"], "management that is there stays"
        if way["way"] != "service-upgrade":
            assert "/service/rating_a" not in changed
            assert "/service/main_breaker_a" not in changed
        assert not {pointer for pointer in changed if pointer.endswith("circuit_breaker_a")}


@pytest.mark.parametrize("name", REQUESTS)
def test_a_failure_that_a_way_ends_has_it_as_its_remedy(name: str) -> None:
    request = REQUESTS[name]
    answer = reviewed(request)
    first = answer["capacity"]["ways_to_fit"][0]
    for item in answer["findings"]:
        if item["outcome"] == "fail" and item["remedy"] is not None:
            changed = [(change["pointer"], change["value"]) for change in item["remedy"]["changes"]]
            again = reviewed(with_way(request, {"changes": item["remedy"]["changes"]}))
            assert finding(again, item["rule"])["outcome"] != "fail", changed
        if item["rule"] == "service-capacity" and item["outcome"] == "fail":
            assert item["remedy"]["message"] == first["why"]
            assert item["remedy"]["changes"] == first["changes"]


def test_a_remedy_names_what_is_there_and_what_to_put_there() -> None:
    remedy = finding(reviewed(FULL), "service-capacity")["remedy"]
    assert remedy["pointer"] == "/chargers/0/charging_current_a"
    assert (remedy["given"], remedy["proposed"]) == (48, 30)
    assert remedy["verdict"] == "no-failure-found"


def test_a_lower_setting_is_one_that_the_charger_has() -> None:
    request = at(FULL, "/chargers/0/settings_a", [16, 20, 24, 32, 40, 48])
    answer = reviewed(request)
    assert ways(answer)["lower-setting"]["charging_current_a"] == 24
    assert answer["capacity"]["largest_charging_current_a"]["unmanaged"] == 24
    none = at(FULL, "/chargers/0/settings_a", [32, 40, 48])
    assert "lower-setting" not in ways(reviewed(none))
    assert reviewed(none)["capacity"]["largest_charging_current_a"]["unmanaged"] is None


def test_a_lower_setting_comes_with_restricted_access_where_the_edition_asks_for_it() -> None:
    open_to_all = at(FULL, "/chargers/0/setting_access", "unrestricted")
    way = ways(reviewed(open_to_all))["lower-setting"]
    assert {"pointer": "/chargers/0/setting_access", "value": "restricted"} in way["changes"]
    # As it stands the rated 48 A count whatever the setting.
    assert reviewed(open_to_all)["capacity"]["largest_charging_current_a"]["unmanaged"] is None
    unknown = at(FULL, "/chargers/0/setting_access", None)
    assert reviewed(unknown)["capacity"]["largest_charging_current_a"]["unmanaged"] == 30
    in_2020 = ways(reviewed({**open_to_all, "edition": "nec-2020"}))["lower-setting"]
    assert [change["pointer"] for change in in_2020["changes"]] == ["/chargers/0/charging_current_a"]


@pytest.mark.source("NEC 625.42 (2017) says nothing on settings: by the default reading the nameplate counts")
def test_where_no_setting_counts_a_smaller_charger_is_the_cheapest_way() -> None:
    way = ways(reviewed({**FULL, "edition": "nec-2017"}))["lower-setting"]
    assert {"pointer": "/chargers/0/rated_current_a", "value": 30} in way["changes"]


def test_a_nameplate_stays_what_it_is_when_the_setting_goes_down() -> None:
    request = at(FULL, "/chargers/0/rated_current_a", None)
    way = ways(reviewed(request))["lower-setting"]
    assert {"pointer": "/chargers/0/rated_current_a", "value": 48} in way["changes"]


def test_the_largest_currents_are_within_the_circuit_and_the_control_setting() -> None:
    free = reviewed(at(asked(), "/chargers/0/rated_current_a", 80))["capacity"]["largest_charging_current_a"]
    # 41.67 A and 125 percent of 47 A are 100.42 A, of which the fraction is dropped; 48 A are 1.25 A more. A service of
    # 100 A takes a control setting of 80 A.
    assert free == {"unmanaged": 47, "managed": 80}
    request = at(at(asked(), "/chargers/0/rated_current_a", 80), "/chargers/0/circuit_breaker_a", 40)
    assert reviewed(request)["capacity"]["largest_charging_current_a"] == {"unmanaged": 32, "managed": 32}
    lower = {
        **at(asked(), "/chargers/0/rated_current_a", 80),
        "management": {**MANAGEMENT, "control_setting_a": 50},
    }
    assert reviewed(lower)["capacity"]["largest_charging_current_a"]["managed"] == 50


def test_a_house_beyond_its_service_leaves_nothing_to_charge_with() -> None:
    answer = reviewed(REQUESTS["a full house"])
    assert answer["capacity"]["headroom_a"] < 0
    assert answer["capacity"]["largest_charging_current_a"] == {"unmanaged": None, "managed": None}
    assert list(ways(answer)) == ["service-upgrade"]


def test_management_that_fails_is_put_right_where_it_fails() -> None:
    for name, field, value in (
        ("a setting too high", "control_setting_a", 80),
        ("full current on a lost link", "fail_safe_current_a", 0),
        ("management that nobody listed", "listed", True),
    ):
        way = ways(reviewed(REQUESTS[name]))["energy-management"]
        (management,) = [change["value"] for change in way["changes"] if change["pointer"] == "/management"]
        assert management[field] == value
        assert way["verdict"] == "no-failure-found"


def test_a_fail_safe_current_that_holds_stays() -> None:
    request = {**FULL, "management": {**MANAGEMENT, "control_setting_a": 100, "fail_safe_current_a": 16}}
    way = ways(reviewed(request))["energy-management"]
    assert way["changes"][0]["value"]["fail_safe_current_a"] == 16


@pytest.mark.source(
    "NEC Table 310.16: 4 AWG copper has 85 A at 75 degC; 220.70 (2023): a setting is a continuous load"
)
def test_management_holds_conductors_for_which_the_percentage_may_not_stand() -> None:
    conductors = {"material": "copper", "size": "4 AWG", "carry_entire_load": True}
    terminals = {"conductor_temperature_rating_c": 75, "terminal_temperature_rating_c": 75}
    service = {**FULL["service"], "conductors": {**conductors, **terminals}}
    without = {name: value for name, value in FULL.items() if name != "occupancy"}
    answer = reviewed({**without, "service": service})
    way = ways(answer)["energy-management"]
    # 85 A over 1.25; with the kind of building known, 83 A of conductors do for the service's own 100 A.
    assert way["changes"][0]["value"]["control_setting_a"] == 68
    known = ways(reviewed({**without, "service": service, "occupancy": "one-family"}))["energy-management"]
    assert known["changes"][0]["value"]["control_setting_a"] == 80
    assert finding(answer, "service-conductors")["message"].endswith("the kind of building is not stated.")


def test_a_panel_is_replaced_where_it_alone_is_too_small() -> None:
    answer = reviewed(REQUESTS["a busbar too small"])
    way = ways(answer)["panel-upgrade"]
    # 62.5 A and 30 A round to 93 A, but the main breaker of 100 A asks for a busbar of 100 A.
    assert way["upgrade_to_a"] == 100
    assert way["changes"] == [{"pointer": "/service/busbar_rating_a", "value": 100}]


def test_a_main_breaker_grows_only_to_the_service_and_on_conductors_that_are_known_to_hold() -> None:
    small = at(at(FULL, "/service/main_breaker_a", 80), "/chargers/0/charging_current_a", 24)
    assert "panel-upgrade" not in ways(reviewed(small))
    known = {**at(small, "/service/conductors", {"ampacity_a": 100}), "occupancy": "one-family"}
    way = ways(reviewed(known))["panel-upgrade"]
    assert {"pointer": "/service/main_breaker_a", "value": 100} in way["changes"]
    short = at(known, "/service/conductors/ampacity_a", 89)
    assert "panel-upgrade" not in ways(reviewed(short))


def test_a_shared_circuit_is_for_several_chargers_and_not_in_2017() -> None:
    two = REQUESTS["two chargers"]
    way = ways(reviewed(two))["shared-circuit"]
    # 30 A together, 15 A each, on the least standard breaker of 125 percent: 37.5 A.
    (circuit,) = way["changes"][0]["value"]
    assert (circuit["control_setting_a"], circuit["breaker_a"], circuit["listed"]) == (30, 40, True)
    assert way["charging_current_a"] == 15
    assert "shared-circuit" not in ways(reviewed({**two, "edition": "nec-2017"}))
    assert "shared-circuit" not in ways(reviewed(FULL))


def test_several_chargers_have_a_setting_in_common() -> None:
    capacity = reviewed(REQUESTS["two chargers"])["capacity"]
    # 37.5 A are left for 125 percent of both.
    assert capacity["largest_charging_current_a"]["unmanaged"] == 15
    apart = at(REQUESTS["two chargers"], "/chargers/0/settings_a", [40])
    assert reviewed(apart)["capacity"]["largest_charging_current_a"]["unmanaged"] is None


def test_a_service_upgrade_takes_panel_and_source_along() -> None:
    way = ways(reviewed(REQUESTS["a backfed busbar"]))["service-upgrade"]
    # 125 A and 60 A on a busbar that may have 120 percent: 154.2 A, so 175 A.
    assert way["upgrade_to_a"] == 125
    assert {"pointer": "/service/busbar_rating_a", "value": 175} in way["changes"]


def test_hourly_data_that_leave_it_open_are_met_by_a_way_that_holds_at_the_bound() -> None:
    request = REQUESTS["hourly data"]
    answer = reviewed(request)
    assert answer["verdict"] == "undetermined"
    # 1.25 times 8 times 2000 W are 83.33 A: 16.67 A are left for 125 percent of 13 A.
    assert ways(answer)["lower-setting"]["charging_current_a"] == 13
    assert ways(answer)["lower-setting"]["verdict"] == "no-failure-found"


def management_of(request: dict[str, object]) -> dict[str, object]:
    """The management that is proposed."""
    way = ways(reviewed(request))["energy-management"]
    (management,) = [change["value"] for change in way["changes"] if change["pointer"] == "/management"]
    return dict(management)


def test_management_is_proposed_at_the_whole_ampere_that_the_ratings_take() -> None:
    # 110 A over 1.25 are 88 A, 115 A 92 A, 111 A 88.8 A.
    for rating, setting in ((110, 88), (115, 92), (111, 88)):
        request = at(FULL, "/service/main_breaker_a", None)
        request = at(at(request, "/service/busbar_rating_a", None), "/service/rating_a", rating)
        assert management_of(request)["control_setting_a"] == setting
    small = at(FULL, "/service/rating_a", 7)
    # 5.6 A are less than any charger is offered, and the house alone is too much.
    assert "energy-management" not in ways(reviewed(small))


def test_management_is_proposed_for_chargers_that_had_none() -> None:
    request = {**at(FULL, "/chargers/0/managed", False), "management": MANAGEMENT}
    way = ways(reviewed(request))["energy-management"]
    assert {"pointer": "/chargers/0/managed", "value": True} in way["changes"]
    # One that stays unmanaged beside others is left alone.
    beside = {**request, "chargers": [*FULL["chargers"], {"charging_current_a": 6, "managed": False}]}
    beside["management"] = {**MANAGEMENT, "control_setting_a": 100}
    assert [change["pointer"] for change in ways(reviewed(beside))["energy-management"]["changes"]] == [
        "/management"
    ]


def test_monitors_are_proposed_on_the_load_side_of_a_source() -> None:
    assert management_of(REQUESTS["a backfed busbar"])["monitor_position"] == "load-side-of-generation"
    assert "monitor_position" not in management_of(FULL)
    generating = at(
        {**FULL, "readings": {"measured-with-generation": "measured-gross"}},
        "/existing_load/has_generation",
        True,
    )
    assert management_of(generating)["monitor_position"] == "load-side-of-generation"


def test_a_fail_safe_current_goes_down_with_a_lower_setting() -> None:
    request = {**FULL, "management": {**MANAGEMENT, "fail_safe_current_a": 40}}
    way = ways(reviewed(request))["lower-setting"]
    assert way["charging_current_a"] == 30
    assert {"pointer": "/management/fail_safe_current_a", "value": 30} in way["changes"]
    within = {**FULL, "management": {**MANAGEMENT, "fail_safe_current_a": 30, "control_setting_a": 90}}
    changed = [change["pointer"] for change in ways(reviewed(within))["lower-setting"]["changes"]]
    assert changed == ["/chargers/0/charging_current_a"]


def test_an_upgrade_is_the_least_standard_rating_that_carries_the_load() -> None:
    def upgrade(amperes: float) -> float:
        demand = (amperes - 60) * 240 / 1.25
        request = at(FULL, "/existing_load/measured_demand_w", demand)
        rating = ways(reviewed(request))["service-upgrade"]["upgrade_to_a"]
        return float(rating)

    # 60 A are the charger's at 125 percent.
    assert (upgrade(110), upgrade(111), upgrade(125), upgrade(126)) == (110, 125, 125, 150)
    bare = asked(
        service={"rating_a": 90, "system": "split-phase-120-240"},
        existing_load={**YEAR, "measured_demand_w": 40 * 240 / 1.25},
        chargers=FULL["chargers"],
    )
    # The next rating above the one that is there, where that one does.
    assert ways(reviewed(bare))["service-upgrade"]["upgrade_to_a"] == 100


def test_a_panel_upgrade_is_the_least_rating_that_carries_the_load() -> None:
    # 72 A on a busbar of 70 A under a main breaker of 80 A.
    request = asked(service={**SPLIT_PHASE, "main_breaker_a": 80, "busbar_rating_a": 70})
    way = ways(reviewed(request))["panel-upgrade"]
    assert way["changes"] == [{"pointer": "/service/busbar_rating_a", "value": 80}]
    # No panel helps a service that does not carry the load.
    beyond = at(request, "/chargers/0/charging_current_a", 80)
    assert "panel-upgrade" not in ways(reviewed(beyond))


def test_a_way_says_what_it_leaves_to_charge_with() -> None:
    why = ways(reviewed(FULL))["energy-management"]["why"]
    # 80 A less the house's 62.5 A.
    assert why.endswith("While the house draws its full 62.5 A, 17.5 A are left to charge with.")
    assert ways(reviewed(REQUESTS["a busbar too small"]))["panel-upgrade"]["why"].endswith("100 A.")


def test_a_control_setting_above_the_service_is_put_right() -> None:
    request = {**asked(), "management": {**MANAGEMENT, "control_setting_a": 120}}
    answer = reviewed(request)
    assert answer["verdict"] == "fail"
    assert management_of(request)["control_setting_a"] == 80
    assert finding(answer, "control-setting-range")["remedy"]["proposed"] == "energy-management"


@pytest.mark.source("NEC 705.12(B) (2023), from memory: 120 percent of the busbar")
def test_a_busbar_that_bears_its_load_but_not_both_supplies_is_replaced() -> None:
    request = asked(
        service={
            **SPLIT_PHASE,
            "main_breaker_a": 100,
            "busbar_rating_a": 100,
            "backfeed_breaker_a": 40,
            "backfeed_opposite_main": True,
        }
    )
    answer = reviewed(request)
    # 140 A over 1.2 are 116.7 A: 125 A is the next standard rating.
    assert [item["rule"] for item in answer["findings"] if item["outcome"] == "fail"] == [
        "busbar-with-backfeed"
    ]
    assert ways(answer)["panel-upgrade"]["upgrade_to_a"] == 125
    assert ways(answer)["panel-upgrade"]["verdict"] == "no-failure-found"


def test_a_service_takes_the_least_busbar_that_serves_as_it_is() -> None:
    request = at(FULL, "/service/busbar_rating_a", 125)
    way = ways(reviewed(request))["service-upgrade"]
    assert {"pointer": "/service/busbar_rating_a", "value": 125} in way["changes"]


def test_a_main_breaker_above_its_service_is_met_by_a_larger_service() -> None:
    request = at(asked(), "/service/main_breaker_a", 125)
    answer = reviewed(request)
    assert list(ways(answer)) == ["service-upgrade"]
    assert ways(answer)["service-upgrade"]["upgrade_to_a"] == 110
    assert finding(answer, "main-breaker-within-service")["remedy"]["pointer"] == "/service/rating_a"


def test_monitors_on_the_wrong_side_of_a_source_are_moved() -> None:
    # 80 A and 40 A are 120 percent of the busbar; 64 A count for 80 A.
    service = {
        **SPLIT_PHASE,
        "main_breaker_a": 80,
        "busbar_rating_a": 100,
        "backfeed_breaker_a": 40,
        "backfeed_opposite_main": True,
    }
    management = {**MANAGEMENT, "monitor_position": "supply-side-of-generation", "control_setting_a": 64}
    request = {**FULL, "service": service, "management": management}
    answer = reviewed(request)
    # With the source at 40 A the loads of the busbar may draw 104 A.
    assert [item["rule"] for item in answer["findings"] if item["outcome"] == "fail"] == ["monitor-position"]
    assert management_of(request)["monitor_position"] == "load-side-of-generation"
    assert reviewed(at(request, "/management/control_setting_a", 60))["verdict"] == "no-failure-found"


def test_a_fail_safe_current_is_below_that_of_every_charger() -> None:
    chargers = [{"charging_current_a": 16}, {"charging_current_a": 48}]
    request = {
        **FULL,
        "existing_load": {**YEAR, "measured_demand_w": 8000},
        "chargers": chargers,
        "management": {**MANAGEMENT, "control_setting_a": 100, "fail_safe_current_a": 20},
    }
    # 20 A are less than 48 A and more than 16 A.
    assert management_of(request)["fail_safe_current_a"] == 0
    assert management_of(at(request, "/management/fail_safe_current_a", 15))["fail_safe_current_a"] == 15
