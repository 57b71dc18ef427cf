"""What differs between two editions, over HTTP: in pages, revalidated, and helpful about names."""

import itertools

import pytest

from branchwright.codebook.differences import Appearance, Difference, differences
from branchwright.http_api.v1 import codebook

EDITIONS = ["nec-2017", "nec-2020", "nec-2023", "nec-2026"]
PAIRS = list(itertools.permutations(EDITIONS, 2))


def path(edition, other):
    return f"/v1/editions/{edition}/differences/{other}"


def pages(client, edition, other, limit):
    """Every page of a comparison, read to the end."""
    found, after = [], None
    for _ in range(200):
        answer = client.get(
            path(edition, other), params={"limit": limit} | ({"after": after} if after else {})
        )
        assert answer.status_code == 200
        found.append(answer.json())
        after = found[-1]["next_after"]
        if after is None:
            return found
    raise AssertionError("the pages never end")


@pytest.mark.parametrize(("edition", "other"), PAIRS, ids=" to ".join)
def test_pages_of_any_length_hold_every_difference_once(client, edition, other):
    whole = client.get(path(edition, other), params={"limit": 100}).json()
    assert (whole["edition"], whole["other"], whole["next_after"]) == (edition, other, None)
    assert [(item["kind"], item["name"]) for item in whole["items"]] == [
        (one.kind, one.name) for one in differences(edition, other)
    ]
    for limit in (1, 7):
        read = pages(client, edition, other, limit)
        assert all(len(page["items"]) <= limit for page in read)
        assert [item for page in read for item in page["items"]] == whole["items"]


@pytest.mark.source("continuing-education lesson on the breaker ratings of 2023")
def test_the_rating_of_10_a_is_a_row_that_2023_added(client):
    items = client.get(path("nec-2020", "nec-2023"), params={"limit": 100}).json()["items"]
    (ratings,) = [item for item in items if item["name"] == "standard-ratings"]
    assert ratings["change"] == "changed"
    assert ratings["rows_added"] == [{"rating_a": 10}]
    assert (ratings["rows_removed"], ratings["cells"], ratings["renumbered"]) == ([], [], False)


@pytest.mark.source("continuing-education page on 625.43 of 2026: the threshold of 60 A is removed")
def test_the_threshold_of_the_disconnect_is_a_cell_that_2026_changed(client):
    items = client.get(path("nec-2023", "nec-2026"), params={"limit": 100}).json()["items"]
    (disconnect,) = [item for item in items if (item["kind"], item["name"]) == ("provision", "disconnect")]
    assert {"key": [], "column": "above_a", "unit": "A", "this": 60, "other": 0} in disconnect["cells"]
    assert disconnect["this"] == {"section": "625.43", "confidence": "high"}
    assert disconnect["renumbered"] is True


@pytest.mark.source("International Residential Code, Table E3705.1, which names the table it reprints")
def test_a_table_that_is_only_renumbered_has_no_cells(client):
    items = client.get(path("nec-2017", "nec-2020"), params={"limit": 100}).json()["items"]
    (ampacity,) = [item for item in items if item["name"] == "ampacity"]
    assert (ampacity["this"]["section"], ampacity["other"]["section"]) == (
        "Table 310.15(B)(16)",
        "Table 310.16",
    )
    assert ampacity["renumbered"] is True
    assert (ampacity["cells"], ampacity["rows_added"], ampacity["rows_removed"]) == ([], [], [])


@pytest.mark.parametrize("edition", EDITIONS)
def test_an_edition_and_itself_differ_in_nothing(client, edition):
    assert client.get(path(edition, edition)).json() == {
        "edition": edition,
        "other": edition,
        "items": [],
        "next_after": None,
    }


def test_a_table_and_a_provision_of_one_name_stand_on_pages_of_their_own(client, monkeypatch):
    here = Appearance("110.14(D)", "high")
    both = tuple(
        Difference(kind, "terminal-torque", "Torque", "added", None, here, False, (), (), ())
        for kind in ("provision", "table")
    )
    monkeypatch.setattr(codebook, "differences", lambda this, other: both)
    read = pages(client, "nec-2020", "nec-2023", 1)
    assert [[item["kind"] for item in page["items"]] for page in read] == [["provision"], ["table"]]
    assert read[0]["next_after"] == "provision/terminal-torque"


def test_every_page_has_a_validator_of_its_own(client):
    found = {}
    for edition, other in (("nec-2017", "nec-2020"), ("nec-2020", "nec-2017")):
        for after in (None, "provision/rooftop", "zzzz"):
            where = path(edition, other)
            parameters = {"after": after} if after else {}
            answer = client.get(where, params=parameters)
            found[edition, after] = answer.headers["etag"]
            assert answer.headers["cache-control"] == "private, max-age=3600"
            again = client.get(where, params=parameters, headers={"If-None-Match": answer.headers["etag"]})
            assert (again.status_code, again.content) == (304, b"")
            assert again.headers["etag"] == answer.headers["etag"]
    assert len(set(found.values())) == len(found)


@pytest.mark.parametrize(
    ("edition", "other", "expected"),
    [
        ("nec2023", "nec-2026", [("path:edition", "nec-2023")]),
        ("nec-2023", "NEC 2026", [("path:other", "nec-2026")]),
        ("nec-1999", "nec-2026", [("path:edition", None)]),
        ("nec-2017", "nec-1999", [("path:other", None)]),
        ("nec-2018", "nec_2020", [("path:edition", None), ("path:other", "nec-2020")]),
        ("x" * 1000, "x" * 1000, [("path:edition", None), ("path:other", None)]),
    ],
)
def test_unknown_editions_are_named_with_the_known_ones(client, edition, other, expected):
    answer = client.get(path(edition, other))
    assert answer.status_code == 404
    assert answer.headers["content-type"] == "application/problem+json"
    errors = answer.json()["errors"]
    assert [error["pointer"] for error in errors] == [pointer for pointer, _ in expected]
    for error, (pointer, suggestion) in zip(errors, expected, strict=True):
        assert error["allowed"] == EDITIONS
        assert error["code"] == "not-an-allowed-value"
        assert error["given"] == {"path:edition": edition, "path:other": other}[pointer][:200]
        assert error["message"] == "There is no edition of this name" + (
            f"; did you mean '{suggestion}'?" if suggestion else "."
        )


@pytest.mark.parametrize(
    ("parameters", "pointer", "code"),
    [
        ({"limit": 0}, "query:limit", "out-of-range"),
        ({"limit": 101}, "query:limit", "out-of-range"),
        ({"limit": "many"}, "query:limit", "wrong-type"),
        ({"after": "x" * 201}, "query:after", "wrong-length"),
        ({"kind": "table"}, "query:kind", "unknown-field"),
    ],
)
def test_a_query_that_does_not_fit_is_refused_and_named(client, parameters, pointer, code):
    answer = client.get(path("nec-2020", "nec-2023"), params=parameters)
    assert answer.status_code == 422
    assert [(error["pointer"], error["code"]) for error in answer.json()["errors"]] == [(pointer, code)]


@pytest.mark.parametrize("after", ["zzzz", "~", "\u00e9"])
def test_a_page_beyond_the_last_is_empty(client, after):
    answer = client.get(path("nec-2020", "nec-2023"), params={"after": after}).json()
    assert (answer["items"], answer["next_after"]) == ([], None)
