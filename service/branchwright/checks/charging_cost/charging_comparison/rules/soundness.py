"""The rule that every compared tariff is sound by itself."""

from branchwright.checks.charging_cost.charging_comparison.given import Given
from branchwright.checks.charging_cost.charging_comparison.rules.rule import rule
from branchwright.checks.charging_cost.tariffs.soundness import can_be_priced
from branchwright.findings import Finding


@rule("charging-tariffs-sound", subject="tariffs", stops=("fail",))
def charging_tariffs_sound(given: Given) -> list[Finding]:
    """Is every tariff sound by itself over the priced year?

    Applies: always. The findings of the tariffs that fail, or cannot be judged, stand beside this one.
    Rests on: the rules of tariff reviews: a tariff that leaves an hour without a price, or prices one twice, makes no
    bill.
    Missing facts: as the rules of tariff reviews say.
    """
    found: list[Finding] = []
    unsound: list[tuple[int, str]] = []
    for place, tariff in enumerate(given.request.tariffs):
        of_tariff = given.soundness[place]
        found += of_tariff
        if not can_be_priced(of_tariff):
            unsound.append((place, tariff.name))
    if not unsound:
        return [charging_tariffs_sound.passed("Every tariff is sound."), *found]
    place, name = unsound[0]
    others = f", and {len(unsound) - 1} more" if len(unsound) > 1 else ""
    failing = charging_tariffs_sound.equal(
        "unsound",
        "sound",
        f"{name} is not sound{others}; its findings stand beside this one.",
        f"/tariffs/{place}",
    )
    return [failing, *found]
