"""The embedded client among tasks: cancelling, fairness, event loops, and the signals of the program."""

import asyncio
import signal

import httpx
import pytest
from tests.sdk.embedding import Gated, with_current

from branchwright.http_api.app import create_embedded_app
from branchwright_sdk import AsyncClient, Client, NotConfigured, TooManyRequests
from branchwright_sdk.embedded import InProcess


def test_a_question_that_is_cancelled_leaves_its_room() -> None:
    async def run() -> None:
        gated = Gated()
        async with httpx.AsyncClient(transport=InProcess(gated.app)) as http:
            asking = asyncio.create_task(http.post("http://localhost/v1/gates", json={"open": True}))
            assert await asyncio.to_thread(gated.reached.wait, 10)
            client = AsyncClient("http://localhost", http_client=http, max_retries=0)
            with pytest.raises(TooManyRequests):
                await client.codebook.list_editions()
            asking.cancel()
            with pytest.raises(asyncio.CancelledError):
                await asking
            assert (await client.codebook.list_editions()).items

    asyncio.run(run())


def test_asking_on_and_on_lets_others_run_and_can_be_cancelled() -> None:
    answered = 0

    async def on_and_on(client: AsyncClient) -> None:
        nonlocal answered
        for _ in range(100):
            await client.operations.check_live()
            answered += 1

    async def run() -> None:
        async with AsyncClient.embedded() as client:
            asking = asyncio.create_task(on_and_on(client))
            while answered < 5:
                await asyncio.sleep(0)
            asking.cancel()
            with pytest.raises(asyncio.CancelledError):
                await asking
            assert answered < 10
            assert (await client.operations.check_live()).status == "live"

    asyncio.run(run())


def test_many_tasks_ask_one_client() -> None:
    async def run() -> None:
        async with AsyncClient.embedded() as client:
            answers = await asyncio.gather(
                *(client.circuits.design_from(with_current(12 + number)) for number in range(36))
            )
            for number, answer in enumerate(answers):
                assert answer == await client.circuits.design_from(with_current(12 + number))

    asyncio.run(run())


def test_an_asynchronous_client_can_be_closed_twice_and_not_used_afterwards() -> None:
    async def run() -> None:
        client = AsyncClient.embedded()
        assert (await client.operations.check_live()).status == "live"
        await client.close()
        await client.close()
        with pytest.raises(NotConfigured, match="closed"):
            await client.operations.check_live()

    asyncio.run(run())


def test_an_asynchronous_client_outlives_an_event_loop() -> None:
    client = AsyncClient.embedded()
    for _ in range(2):
        assert asyncio.run(client.operations.check_live()).status == "live"
    asyncio.run(client.close())


def test_signals_are_left_to_the_program() -> None:
    def host(number: int, frame: object) -> None:
        raised.append(number)

    async def run() -> None:
        async with AsyncClient.embedded() as client:
            with Client.embedded() as other:
                await client.operations.check_live()
                other.operations.check_live()
                assert signal.getsignal(signal.SIGTERM) is host
                signal.raise_signal(signal.SIGTERM)
                # the program may still want to know something before it ends
                assert (await client.operations.check_ready()).status == "ready"
                assert other.operations.check_ready().status == "ready"

    raised: list[int] = []
    before = signal.signal(signal.SIGTERM, host)
    try:
        asyncio.run(run())
    finally:
        signal.signal(signal.SIGTERM, before)
    assert raised == [signal.SIGTERM]


def test_whoever_runs_its_lifespan_keeps_the_signals_too() -> None:
    async def run() -> None:
        app = create_embedded_app()
        before = signal.getsignal(signal.SIGTERM)
        async with app.router.lifespan_context(app):
            assert signal.getsignal(signal.SIGTERM) is before

    asyncio.run(run())
