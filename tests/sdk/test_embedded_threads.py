"""The embedded client among threads: how long it lives, who may ask at once, what is given up."""

import asyncio
import gc
import threading
from concurrent.futures import ThreadPoolExecutor
from typing import Any

import httpx
import pytest
from tests.sdk.embedding import DESIGN, Gated, threads, with_current

from branchwright.checks import circuits
from branchwright.http_api.app import create_embedded_app
from branchwright_sdk import BranchwrightError, Client, ConnectionFailed, NotConfigured, TimedOut
from branchwright_sdk.embedded import Blocking, InProcess


def test_two_clients_are_two_services() -> None:
    one, two = Client.embedded(), Client.embedded()
    assert len(threads()) == 2
    assert one.circuits.design(**DESIGN) == two.circuits.design(**DESIGN)
    one.close()
    assert len(threads()) == 1
    assert two.operations.check_live().status == "live"
    two.close()


def test_a_client_can_be_closed_twice_and_not_used_afterwards() -> None:
    client = Client.embedded()
    view = client.with_options(timeout=1)
    assert client.operations.check_live().status == "live"
    client.close()
    client.close()
    for closed in (client, view):
        with pytest.raises(NotConfigured, match="closed"):
            closed.operations.check_live()


def test_a_closed_transport_answers_nobody() -> None:
    transport = Blocking(InProcess(create_embedded_app()))
    with httpx.Client(transport=transport) as http:
        transport.close()
        with pytest.raises(ConnectionFailed, match="the embedded service is closed"):
            Client("http://any.test", http_client=http, max_retries=0).operations.check_live()


def test_a_client_that_is_forgotten_ends_its_thread() -> None:
    client = Client.embedded()
    assert client.operations.check_live().status == "live"
    (thread,) = threads()
    del client
    gc.collect()
    thread.join(10)
    assert not thread.is_alive()


def test_a_client_that_is_forgotten_within_its_own_thread_ends_it_all_the_same() -> None:
    transports = [Blocking(InProcess(create_embedded_app()))]
    (thread,) = threads()
    transports[0]._loop.call_soon_threadsafe(transports.clear)
    thread.join(10)
    assert not thread.is_alive()


def test_within_a_running_event_loop() -> None:
    """As in a notebook, whose cells run on a loop."""

    async def cell() -> str:
        with Client.embedded() as client:
            return client.circuits.design(**DESIGN).edition

    assert asyncio.run(cell()) == DESIGN["edition"]


def test_many_threads_ask_one_client_and_each_gets_its_own_answer() -> None:
    asked = [with_current(12 + number % 36) for number in range(216)]
    with Client.embedded() as client:
        alone = [client.circuits.design_from(with_current(12 + number)) for number in range(36)]
        assert len({answer.provenance.input_sha256 for answer in alone}) == 36
        with ThreadPoolExecutor(12) as pool:
            together = list(pool.map(client.circuits.design_from, asked))
        assert len(threads()) == 1
    assert together == alone * 6


def test_two_services_at_once_do_not_disturb_each_other() -> None:
    asked = [with_current(12 + number % 24) for number in range(96)]
    with Client.embedded() as one, Client.embedded() as two, ThreadPoolExecutor(4) as pool:
        alone = [one.circuits.design_from(with_current(12 + number)) for number in range(24)]
        both = [pool.map(client.circuits.design_from, asked) for client in (one, two)]
        assert [list(answers) for answers in both] == [alone * 4] * 2


def test_a_client_that_is_closed_while_it_is_asked_leaves_nobody_waiting() -> None:
    client = Client.embedded()
    begun = threading.Barrier(9)
    ended: list[object] = []

    def ask_until_closed() -> None:
        begun.wait(10)
        while True:
            try:
                client.circuits.design(**DESIGN)
            except BranchwrightError as error:
                ended.append(error)
                return

    asking = [threading.Thread(target=ask_until_closed) for _ in range(8)]
    for thread in asking:
        thread.start()
    begun.wait(10)
    threading.Event().wait(0.05)
    client.close()
    for thread in asking:
        thread.join(10)
        assert not thread.is_alive()
    assert len(ended) == 8
    assert {type(error) for error in ended} <= {NotConfigured, ConnectionFailed}


def test_what_takes_too_long_is_given_up_and_the_next_question_is_answered(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    release = threading.Event()
    quick = circuits.design

    def slow(body: Any) -> Any:
        release.wait(10)
        return quick(body)

    monkeypatch.setattr(circuits, "design", slow)
    with Client.embedded(timeout=0.05) as client:
        with pytest.raises(TimedOut, match="still at it"):
            client.circuits.design(**DESIGN)
        release.set()
        assert client.with_options(timeout=10).circuits.design(**DESIGN).edition == DESIGN["edition"]


def test_a_client_that_is_closed_cancels_what_still_waits() -> None:
    gated = Gated()
    failed: list[Exception] = []

    def ask() -> None:
        try:
            http.post("http://localhost/v1/gates", json={"open": True})
        except httpx.ReadError as error:
            failed.append(error)

    with httpx.Client(transport=Blocking(InProcess(gated.app))) as http:
        asking = threading.Thread(target=ask)
        asking.start()
        assert gated.reached.wait(10)
    asking.join(10)
    assert not asking.is_alive()
    assert [str(error) for error in failed] == ["the embedded service was closed"]
