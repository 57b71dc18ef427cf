"""Cover over what is buried, against the table's own millimetres and against common sense."""

import pytest

# Millimetres printed beside the inches: cable, rigid metal conduit, other raceways.
MILLIMETRES = {
    "soil": (600, 150, 450),
    "dwelling-driveway": (450, 450, 450),
    "street": (600, 600, 600),
    "building": (None, 0, 0),
    "concrete": (450, 100, 100),
}


@pytest.mark.source("NEC Table 300.5, a state's code copy; International Residential Code, Table E3803.1")
def test_cover_agrees_with_its_metric_print(burial_cover):
    assert [row["under"] for row in burial_cover.rows] == list(MILLIMETRES)
    for row in burial_cover.rows:
        cells = (row["cable_in"], row["rigid_metal_in"], row["other_raceway_in"])
        metric = (row["cable_mm"], row["rigid_metal_mm"], row["other_raceway_mm"])
        assert metric == tuple("" if each is None else str(each) for each in MILLIMETRES[row["under"]])
        for cell, millimetres in zip(cells, MILLIMETRES[row["under"]], strict=True):
            if millimetres is None:
                assert cell == "", row["under"]
            else:
                # The book rounds to 50 mm or 100 mm: 18 in is 457 mm and printed 450.
                assert float(cell) * 25.4 == pytest.approx(millimetres, rel=0.025), row["under"]


def test_harder_wiring_needs_no_more_cover(burial_cover):
    for row in burial_cover.rows:
        covers = [float(row[c] or "inf") for c in ("rigid_metal_in", "other_raceway_in", "cable_in")]
        assert covers == sorted(covers), row["under"]


def test_traffic_needs_no_less_cover(burial_cover):
    for column in ("cable_in", "rigid_metal_in", "other_raceway_in"):
        cover = {row["under"]: float(row[column] or "inf") for row in burial_cover.rows}
        assert cover["street"] >= cover["soil"], column
        assert cover["street"] >= cover["dwelling-driveway"], column
        assert cover["soil"] >= cover["concrete"], column


@pytest.mark.source("NEC Table 300.5: common practice of trenching, 24 in cable, 18 in PVC, 6 in rigid")
def test_a_trench_in_the_garden(burial_cover):
    assert burial_cover.row(under="soil") == {
        "under": "soil",
        "cable_in": "24",
        "rigid_metal_in": "6",
        "other_raceway_in": "18",
        "cable_mm": "600",
        "rigid_metal_mm": "150",
        "other_raceway_mm": "450",
    }
