"""Settings come from the environment, and a bad one is named without its value."""

import pytest

from branchwright.http_api.security import create_key
from branchwright.http_api.serve import UnsafeAddressError, require_safe_address
from branchwright.http_api.settings import Settings, SettingsError, as_environment, load


@pytest.fixture(autouse=True)
def no_settings(monkeypatch):
    for name in Settings.model_fields:
        monkeypatch.delenv(f"BRANCHWRIGHT_{name.upper()}", raising=False)


def test_defaults():
    settings = load()
    assert (settings.host, settings.workers, settings.concurrency_limit) == ("127.0.0.1", 1, None)
    assert settings.body_limit_bytes == 1_048_576
    assert not settings.allow_anonymous
    assert settings.api_key_hashes == ()


def test_hashes_are_separated_by_commas(monkeypatch):
    first, second = create_key()[1], create_key()[1]
    monkeypatch.setenv("BRANCHWRIGHT_API_KEY_HASHES", f"{first}, {second}")
    assert load().api_key_hashes == (first, second)


@pytest.mark.parametrize(
    ("name", "value", "reason"),
    [
        ("API_KEY_HASHES", "abc", "hash 1 is not a SHA-256 hash"),
        (
            "API_KEY_HASHES",
            ",".join([create_key()[1]] * 3),
            "at most 2 key hashes may be active, 3 were given",
        ),
        ("API_KEY_HASHES", "AB" * 32, "64 digits of 0-9a-f"),
        ("PORT", "99999", "less than or equal to 65535"),
        ("WORKERS", "0", "greater than or equal to 1"),
        ("CONCURRENCY_LIMIT", "0", "greater than or equal to 1"),
        ("LOG_LEVEL", "loud", "'debug'"),
        ("ALLOW_ANONYMOUS", "perhaps", "boolean"),
    ],
)
def test_a_bad_setting_is_named(monkeypatch, name, value, reason):
    monkeypatch.setenv(f"BRANCHWRIGHT_{name}", value)
    with pytest.raises(SettingsError) as caught:
        load()
    assert f"BRANCHWRIGHT_{name}: " in str(caught.value)
    assert reason in str(caught.value)
    assert value not in str(caught.value)


def test_settings_survive_the_environment(monkeypatch):
    settings = Settings(
        host="::1",
        port=0,
        workers=3,
        api_key_hashes=(create_key()[1], create_key()[1]),
        allow_anonymous=True,
        concurrency_limit=7,
        drain_seconds=2,
        log_level="warning",
    )
    for name, value in as_environment(settings).items():
        monkeypatch.setenv(name, value)
    assert load() == settings


@pytest.mark.parametrize("host", ["127.0.0.1", "127.8.0.1", "::1", "localhost"])
def test_loopback_is_safe(host):
    require_safe_address(Settings(host=host))


@pytest.mark.parametrize("host", ["0.0.0.0", "::", "10.0.0.1", "chargers.example"])  # noqa: S104
def test_other_addresses_need_a_key_or_leave(host):
    with pytest.raises(UnsafeAddressError, match="--allow-anonymous") as caught:
        require_safe_address(Settings(host=host))
    assert host in str(caught.value)
    require_safe_address(Settings(host=host, allow_anonymous=True))
    require_safe_address(Settings(host=host, api_key_hashes=(create_key()[1],)))
