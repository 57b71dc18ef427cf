"""The codebook over HTTP: complete, sourced, in pages, and helpful about names."""

import csv
import re
import tomllib
from pathlib import Path

import pytest

DATA = Path(__file__).parents[2] / "service" / "branchwright" / "codebook" / "data" / "nec"
EDITION = "nec-2023"


def listed(client, path, limit):
    """Every entry of a list, read page by page."""
    entries, after = [], None
    for _ in range(200):
        page = client.get(path, params={"limit": limit} | ({"after": after} if after else {})).json()
        assert len(page["items"]) <= limit
        entries += page["items"]
        after = page["next_after"]
        if after is None:
            return entries
        assert after == page["items"][-1]["name"]
    raise AssertionError("the pages never end")


def test_editions_are_those_of_the_data(client):
    names = sorted(tomllib.loads((DATA / "editions.toml").read_text())["editions"])
    assert [edition["name"] for edition in listed(client, "/v1/editions", 1)] == names


def test_an_edition_lists_every_table_and_provision_with_its_evidence(client):
    answer = client.get(f"/v1/editions/{EDITION}").json()
    tables = {folder.name.replace("_", "-") for folder in (DATA / "tables").iterdir() if folder.is_dir()}
    provisions = {file.stem for file in (DATA / "provisions").glob("*.toml")}
    assert {table["name"] for table in answer["tables"]} == tables
    assert {provision["concept"] for provision in answer["provisions"]} == provisions
    assert answer["edition"]["name"] == EDITION
    for entry in answer["tables"] + answer["provisions"]:
        assert {"section", "confidence", "found", "source", "checked"} <= set(entry["evidence"])
        assert all(
            entry["evidence"][name] for name in ("section", "confidence", "found", "source", "checked")
        )


def test_a_provision_has_its_values(client):
    answer = client.get(f"/v1/editions/{EDITION}").json()
    (continuous,) = [entry for entry in answer["provisions"] if entry["concept"] == "continuous-load"]
    # NEC 2023, 625.41: 125 percent.
    assert continuous["values"] == {"factor": 1.25}
    assert continuous["evidence"]["section"] == "625.41"
    assert continuous["columns"][0]["unit"] == "1"


def test_interpretations_say_what_a_request_may_choose(client):
    points = client.get(f"/v1/editions/{EDITION}").json()["interpretations"]
    assert points
    for point in points:
        assert point["default"] in point["readings"]
        assert len(point["readings"]) >= 2


@pytest.mark.source("NEC 2023, Table 310.16")
def test_a_table_shows_what_the_book_prints(client):
    table = client.get(f"/v1/editions/{EDITION}/tables/ampacity").json()
    assert table["evidence"]["section"] == "Table 310.16"
    assert {column["name"]: column["unit"] for column in table["columns"]}["copper_75"] == "A"
    rows = {row["size"]: row for row in table["rows"]}
    assert (rows["8 AWG"]["copper_75"], rows["6 AWG"]["copper_75"], rows["6 AWG"]["copper_60"]) == (
        50,
        65,
        55,
    )


def test_every_table_is_served_row_by_row(client):
    for summary in client.get(f"/v1/editions/{EDITION}").json()["tables"]:
        table = client.get(f"/v1/editions/{EDITION}/tables/{summary['name']}").json()
        folder = DATA / "tables" / summary["name"].replace("-", "_")
        with (folder / f"rows-{EDITION}.csv").open(newline="") as file:
            printed = list(csv.DictReader(file))
        assert len(printed) == summary["row_count"] == len(table["rows"])
        names = [column["name"] for column in table["columns"]]
        assert names == list(printed[0])
        for row, cells in zip(table["rows"], printed, strict=True):
            shown = ["" if row[name] is None else row[name] for name in names]
            assert shown == [type(value)(cells[name]) for value, name in zip(shown, names, strict=True)]


def test_rules_are_listed_in_order_and_explained(client):
    rules = listed(client, "/v1/rules", 7)
    names = [rule["name"] for rule in rules]
    assert names == sorted(set(names))
    assert "overcurrent-continuous-load" in names
    for name in names:
        rule = client.get(f"/v1/rules/{name}").json()
        assert rule["question"].endswith("?")
        assert rule["force"] in {"requirement", "recommendation"}
        assert rule["prose"]
        assert [section["edition"] for section in rule["sections"]] == [EDITION]


def test_a_rule_names_its_section(client):
    rule = client.get("/v1/rules/overcurrent-continuous-load").json()
    assert rule["sections"] == [{"edition": EDITION, "section": "625.41"}]


@pytest.mark.parametrize(
    ("path", "pointer", "suggestion"),
    [
        ("/v1/editions/nec2023", "path:edition", "nec-2023"),
        ("/v1/editions/NEC 2023", "path:edition", "nec-2023"),
        ("/v1/editions/nec-1999", "path:edition", None),
        ("/v1/editions/nec-1999/tables/ampacity", "path:edition", None),
        (f"/v1/editions/{EDITION}/tables/ampacities", "path:table", "ampacity"),
        (f"/v1/editions/{EDITION}/tables/conductor_areas", "path:table", "conductor-areas"),
        ("/v1/rules/raceway-fil", "path:rule", "raceway-fill"),
    ],
)
def test_an_unknown_name_is_answered_with_the_known_ones(client, path, pointer, suggestion):
    answer = client.get(path)
    assert answer.status_code == 404
    (error,) = answer.json()["errors"]
    assert error["pointer"] == pointer
    assert error["message"].endswith(f"did you mean '{suggestion}'?" if suggestion else "of this name.")
    assert suggestion is None or suggestion in error["allowed"]
    assert error["allowed"]


@pytest.mark.parametrize(
    "path", ["/v1/editions", f"/v1/editions/{EDITION}", "/v1/rules", "/v1/rules/raceway-fill"]
)
def test_answers_can_be_kept_and_revalidated(client, path):
    first = client.get(path)
    assert re.fullmatch(r'"[0-9a-f]{64}"', first.headers["etag"])
    assert first.headers["cache-control"] == "private, max-age=3600"
    again = client.get(path, headers={"If-None-Match": first.headers["etag"]})
    assert (again.status_code, again.content) == (304, b"")


@pytest.mark.parametrize("after", ["\u00e9", "zzzz", "'", "~", "a" * 200])
def test_any_text_may_follow_after(client, after):
    answer = client.get("/v1/rules", params={"after": after})
    assert answer.status_code == 200


def test_a_page_beyond_the_last_is_empty(client):
    assert client.get("/v1/rules", params={"after": "zzzz"}).json() == {"items": [], "next_after": None}
