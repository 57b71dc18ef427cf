"""The codebook over HTTP: complete, sourced, in pages, and helpful about names."""

import csv
import re
import tomllib
from pathlib import Path

import pytest

DATA = Path(__file__).parents[2] / "service" / "branchwright" / "codebook" / "data" / "nec"
EDITION = "nec-2023"
EDITIONS = ["nec-2017", "nec-2020", "nec-2023", "nec-2026"]


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


@pytest.mark.parametrize("limit", [1, 3, 100])
def test_editions_are_those_of_the_data(client, limit):
    assert sorted(tomllib.loads((DATA / "editions.toml").read_text())["editions"]) == EDITIONS
    assert [edition["name"] for edition in listed(client, "/v1/editions", limit)] == EDITIONS


@pytest.mark.parametrize("edition", EDITIONS)
def test_an_edition_lists_every_table_and_provision_with_its_evidence(client, edition):
    answer = client.get(f"/v1/editions/{edition}").json()
    tables = {file.parent.name.replace("_", "-"): file for file in (DATA / "tables").glob("*/about.toml")}
    provisions = {file.stem: file for file in (DATA / "provisions").glob("*.toml")}
    assert answer["edition"]["name"] == edition
    for key, files in (("name", tables), ("concept", provisions)):
        of_all = {name: tomllib.loads(file.read_text("utf-8"))["editions"] for name, file in files.items()}
        written = {name: found[edition] for name, found in of_all.items() if edition in found}
        shown = {
            entry[key]: entry["evidence"] for entry in answer["tables" if key == "name" else "provisions"]
        }
        assert set(shown) == set(written)
        for name, evidence in shown.items():
            assert evidence == {part: written[name].get(part) for part in evidence}
            assert evidence["confidence"] in {"high", "medium", "low"}
            assert all(evidence[part] for part in ("section", "found", "source", "checked"))


@pytest.mark.source("second draft of NFPA 70:2026, 625.54(B); no published page was found")
def test_the_confidence_of_a_provision_is_that_of_its_edition(client):
    confidence = {
        edition: {
            entry["concept"]: entry["evidence"]["confidence"]
            for entry in client.get(f"/v1/editions/{edition}").json()["provisions"]
        }
        for edition in EDITIONS
    }
    assert [confidence[edition]["permanently-wired-protection"] for edition in EDITIONS] == [
        *("high", "high", "high", "low"),
    ]
    assert "setting-label" not in confidence["nec-2017"]
    assert confidence["nec-2020"]["setting-label"] == "high"


def test_a_provision_has_its_values(client):
    answer = client.get(f"/v1/editions/{EDITION}").json()
    (continuous,) = [entry for entry in answer["provisions"] if entry["concept"] == "continuous-load"]
    # NEC 2023, 625.41: 125 percent.
    assert continuous["values"] == {"factor": 1.25}
    assert continuous["evidence"]["section"] == "625.41"
    assert continuous["columns"][0]["unit"] == "1"


@pytest.mark.parametrize("edition", EDITIONS)
def test_interpretations_say_what_a_request_may_choose(client, edition):
    points = client.get(f"/v1/editions/{edition}").json()["interpretations"]
    assert any(point["section"] for point in points)
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


TABLES = [
    (edition, file.parent.name)
    for edition in EDITIONS
    for file in sorted((DATA / "tables").glob("*/about.toml"))
    if edition in tomllib.loads(file.read_text("utf-8"))["editions"]
]


@pytest.mark.parametrize(("edition", "name"), TABLES)
def test_every_table_of_every_edition_is_served_row_by_row_and_can_be_kept(client, edition, name):
    path = f"/v1/editions/{edition}/tables/{name.replace('_', '-')}"
    first = client.get(path)
    table = first.json()
    about = tomllib.loads((DATA / "tables" / name / "about.toml").read_text("utf-8"))
    record = rows_of = about["editions"][edition]
    while "same_as" in rows_of:
        rows_of = about["editions"][rows_of["same_as"]]
    with (DATA / "tables" / name / rows_of["rows"]).open(newline="", encoding="utf-8") as file:
        printed = list(csv.DictReader(file))
    assert (table["edition"], table["evidence"]["section"]) == (edition, record["section"])
    names = [column["name"] for column in table["columns"]]
    assert names == list(printed[0])
    assert len(table["rows"]) == len(printed)
    for row, cells in zip(table["rows"], printed, strict=True):
        shown = ["" if row[column] is None else row[column] for column in names]
        assert shown == [type(cell)(cells[column]) for cell, column in zip(shown, names, strict=True)]
    etag = first.headers["etag"]
    assert first.headers["cache-control"] == "private, max-age=3600"
    for known in (etag, f"W/{etag}", f'"other", {etag}', "*"):
        again = client.get(path, headers={"If-None-Match": known})
        assert (again.status_code, again.content, again.headers["etag"]) == (304, b"", etag)
    assert client.get(path, headers={"If-None-Match": '"other"'}).status_code == 200


def test_an_edition_counts_the_rows_of_its_tables(client):
    for edition in EDITIONS:
        for summary in client.get(f"/v1/editions/{edition}").json()["tables"]:
            table = client.get(f"/v1/editions/{edition}/tables/{summary['name']}").json()
            assert summary["row_count"] == len(table["rows"]) > 0


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
        assert [section["edition"] for section in rule["sections"]] == EDITIONS
        # What things cost is no question of the code.
        of_cost = rule["check"] in {"tariffs", "charging-comparison", "installation"}
        assert any(section["section"] for section in rule["sections"]) != of_cost, name


def test_a_rule_names_its_section(client):
    rule = client.get("/v1/rules/overcurrent-continuous-load").json()
    assert rule["sections"] == [{"edition": edition, "section": "625.41"} for edition in EDITIONS]


def test_a_rule_has_no_section_where_the_edition_has_no_such_provision(client):
    rule = client.get("/v1/rules/setting-label").json()
    assert [section["section"] for section in rule["sections"]] == [None, "625.42", "625.42(B)", "625.42(B)"]


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
    "path",
    [
        "/v1/editions",
        "/v1/editions?limit=2&after=nec-2017",
        *(f"/v1/editions/{edition}" for edition in EDITIONS),
        "/v1/editions/nec-2017/differences/nec-2026",
        "/v1/editions/nec-2026/differences/nec-2026",
        "/v1/rules",
        "/v1/rules/raceway-fill",
    ],
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
