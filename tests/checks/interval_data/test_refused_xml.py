"""XML that must not or cannot be read: refused with a reason, before it costs anything."""

import tracemalloc

import pytest
from tests.checks.interval_data.asking import ask_xml
from tests.checks.interval_data.green_button_files import feed, house

from branchwright.checks.service_capacity.interval_data import Instructions, UnreadableBody, read_green_button
from branchwright.checks.service_capacity.interval_data.facts import MOST_BYTES
from branchwright.checks.service_capacity.interval_data.green_button import elements

LAUGHS = "".join(f'<!ENTITY l{at} "{f"&l{at - 1};" * 10}">' for at in range(1, 10))


@pytest.mark.source("CWE-776, CWE-611: entities that expand, and entities that fetch")
@pytest.mark.parametrize(
    "prologue, named",
    [
        ("<!DOCTYPE feed>", "document type"),
        ('<!DOCTYPE feed SYSTEM "http://elsewhere.example/feed.dtd">', "document type"),
        (f'<!DOCTYPE feed [<!ENTITY l0 "lol">{LAUGHS}]>', "document type"),
        ('<!DOCTYPE feed [<!ENTITY file SYSTEM "file:///etc/passwd">]>', "document type"),
    ],
)
def test_document_types_and_entities_are_refused(prologue: str, named: str) -> None:
    with pytest.raises(UnreadableBody, match=named):
        ask_xml(prologue + "<feed>&l9;</feed>")


@pytest.mark.parametrize(
    "text",
    [
        "",
        "not XML",
        "<feed>",
        "<feed></entry>",
        "<feed>&undeclared;</feed>",
        house([400, 500])[:-5],
        "\x00<feed/>",
    ],
)
def test_what_is_not_well_formed_is_refused(text: str) -> None:
    with pytest.raises(UnreadableBody, match="no well-formed XML"):
        ask_xml(text)


@pytest.mark.parametrize("encoding", ["no-such-code", "utf-7", "hex"])
def test_an_unknown_encoding_is_refused(encoding: str) -> None:
    with pytest.raises(UnreadableBody):
        ask_xml(f'<?xml version="1.0" encoding="{encoding}"?><feed/>')


@pytest.mark.source("XML 1.0, 4.3.3: every reader knows UTF-8 and UTF-16")
def test_utf_16_is_read() -> None:
    text = house([400, 500]).replace("UTF-8", "UTF-16")
    answer = read_green_button(text.encode("utf-16"), Instructions())
    assert answer.series is not None
    assert answer.series.energy_wh == [400, 500]


def test_deep_nesting_is_refused() -> None:
    with pytest.raises(UnreadableBody, match="deeper than 40"):
        ask_xml("<a>" * 100_000)


def test_too_many_readings_are_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(elements, "MOST_READINGS", 100)
    assert ask_xml(house([400, 500] * 50))["quality"]["readings"] == 100
    with pytest.raises(UnreadableBody, match="more than 100 readings"):
        ask_xml(house([400, 500] * 50 + [400]))


def test_too_many_entries_and_links_are_refused() -> None:
    with pytest.raises(UnreadableBody, match="more than 50000 entries"):
        ask_xml(feed(*["<entry/>"] * 50_001))
    with pytest.raises(UnreadableBody, match="more than 100 links"):
        ask_xml(feed("<entry>" + '<link rel="related" href="/a"/>' * 101 + "</entry>"))


def test_a_stream_is_given_up_at_the_limit_of_bytes() -> None:
    taken = 0

    def endless():
        nonlocal taken
        yield b'<feed xmlns="http://www.w3.org/2005/Atom"><title>'
        while True:
            taken += 1 << 20
            yield b" " * ((1 << 20) - 4) + b"<a/>"

    with pytest.raises(UnreadableBody, match=f"longer than {MOST_BYTES} bytes"):
        read_green_button(endless(), Instructions())
    assert taken <= MOST_BYTES + (1 << 20)


def test_pieces_of_any_size_give_the_same() -> None:
    body = house([400, 700, 350, 5200]).encode()
    whole = read_green_button(body, Instructions())
    for size in (1, 7, 1000):
        pieces = [body[at : at + size] for at in range(0, len(body), size)]
        assert read_green_button(pieces, Instructions()) == whole


def test_elements_that_mean_nothing_leave_nothing_in_memory() -> None:
    # 20 MB of a resource that is passed over.
    junk = (
        "<entry><content><UsageSummary xmlns='http://naesb.org/espi'><note>"
        + "x" * 900
        + "</note></UsageSummary></content></entry>"
    ) * 20_000
    body = feed(junk).encode()
    tracemalloc.start()
    read_green_button(body, Instructions())
    _, peak = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    assert peak < 15_000_000, "no tree is built"


def test_too_many_elements_and_names_are_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(elements, "MOST_ELEMENTS", 1000)
    with pytest.raises(UnreadableBody, match="more than 1000 elements"):
        ask_xml(feed("<a/>" * 1001))
    monkeypatch.undo()
    with pytest.raises(UnreadableBody, match="more than 2000 names"):
        ask_xml(feed("".join(f"<a{at}/>" for at in range(2001))))


@pytest.mark.parametrize(
    "inside", ["<a " + " ".join(f'b{at}=""' for at in range(200_000)) + "/>", "x" * 2_000_000]
)
def test_a_tag_or_text_without_end_is_refused(inside: str) -> None:
    with pytest.raises(UnreadableBody, match="without the end of a tag"):
        ask_xml(feed(inside))
