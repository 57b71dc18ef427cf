"""Whatever is asked: sums reconcile to the last digit, ranges rise, draws stay inside, and every step replays."""

from decimal import ROUND_HALF_UP, Decimal
from itertools import pairwise

from hypothesis import given
from tests.checks.circuits import Json
from tests.checks.effort import examples
from tests.checks.replay import replay
from tests.jobs.installation.estimates import ENDS, GROUPS, estimated, estimates, money

from branchwright.quantities.money import minor_digits


def half_up(amount: Decimal, digits: int) -> Decimal:
    return amount.quantize(Decimal(1).scaleb(-digits), rounding=ROUND_HALF_UP)


def written(amount: str, digits: int) -> bool:
    _, _, after = amount.partition(".")
    return len(after) == digits


def digits_of(answer: Json) -> int:
    currency = answer["totals"]["currency"]
    known = minor_digits(currency) if currency else None
    return 2 if known is None else known


def reconciles(answer: Json, request: Json) -> None:
    """Every amount follows from what stands beside it in the answer, in decimals."""
    digits, totals = digits_of(answer), answer["totals"]
    for place, end in enumerate(ENDS):
        for group, name in GROUPS.items():
            amounts = [
                Decimal(line["amount"][end])
                for line in answer["lines"]
                if line["group"] == group and line["amount"]
            ]
            assert Decimal(totals[name][end]) == sum(amounts, Decimal(0))
        for line in answer["lines"]:
            if line["unit_price"] is None:
                continue
            figure = line["hours"][end] if line["group"] == "labour" else line["quantity"]
            product = Decimal(repr(figure)) * Decimal(line["unit_price"][end])
            assert Decimal(line["amount"][end]) == half_up(product, digits), line
            assert written(line["amount"][end], digits)
        subtotal = sum((Decimal(totals[name][end]) for name in GROUPS.values()), Decimal(0))
        markup = Decimal(repr(float(request.get("markup_percent") or 0)))
        assert Decimal(totals["markup"][end]) == half_up(subtotal * markup / 100, digits)
        tax = request.get("tax") or {"percent": 0, "on": []}
        taxed = sum((Decimal(totals[GROUPS.get(name, name)][end]) for name in set(tax["on"])), Decimal(0))
        percent = Decimal(repr(float(tax["percent"])))
        assert Decimal(totals["tax"][end]) == half_up(taxed * percent / 100, digits)
        parts = ("material", "labour", "fees", "markup", "tax")
        assert Decimal(totals["total"][end]) == sum(
            (Decimal(totals[name][end]) for name in parts), Decimal(0)
        )
        if answer["hours"]:
            hours = [line["hours"] for line in answer["lines"] if line["hours"]]
            together = sum((Decimal(repr(one[end])) for one in hours), Decimal(0))
            assert answer["hours"][end] == float(together), place


def rises(answer: Json) -> None:
    """Low is at most likely, that at most high, and the draws lie between."""
    ranges = [line[name] for line in answer["lines"] for name in ("unit_price", "amount") if line[name]]
    ranges += [answer["totals"][name] for name in (*GROUPS.values(), "markup", "tax", "total")]
    for one in ranges:
        low, likely, high = money(one)
        assert 0 <= low <= likely <= high
    for line in answer["lines"]:
        if line["hours"]:
            assert 0 <= line["hours"]["low"] <= line["hours"]["likely"] <= line["hours"]["high"]
    risk, total = answer["risk"], answer["totals"]["total"]
    drawn = [Decimal(total["low"]), *(Decimal(risk[name]) for name in ("p10", "p50", "p90"))]
    assert all(one <= other for one, other in pairwise([*drawn, Decimal(total["high"])]))
    assert Decimal(total["low"]) - 1 <= Decimal(risk["mean"]) <= Decimal(total["high"]) + 1


def holds(request: Json) -> Json:
    answer = estimated(request)
    if answer["design"] is None:
        assert answer["verdict"] == "fail"
        assert (answer["lines"], answer["totals"], answer["risk"], answer["steps"]) == ([], None, None, [])
        return answer
    reconciles(answer, request)
    rises(answer)
    replay(answer, request)
    lacking = [line for line in answer["lines"] if line["amount"] is None]
    assert answer["totals"]["is_complete"] is (not lacking)
    priced = next(one for one in answer["findings"] if one["rule"] == "estimate-priced")
    assert priced["outcome"] == ("undetermined" if lacking else "pass")
    assert all(line["rests_on"] or line["key"] is None for line in answer["lines"])
    return answer


@examples(60)
@given(estimates(usual=True))
def test_usual_estimates_reconcile_and_replay(request: Json) -> None:
    holds(request)


@examples(60)
@given(estimates(usual=False))
def test_any_estimates_reconcile_and_replay(request: Json) -> None:
    holds(request)


@examples(20)
@given(estimates(usual=True))
def test_the_same_request_gives_the_same_answer(request: Json) -> None:
    assert estimated(request) == estimated(request)


@examples(20)
@given(estimates(usual=True))
def test_what_costs_more_costs_more(request: Json) -> None:
    """Monotony: a markup never lowers a total, and neither does a longer run."""
    answer = estimated({**request, "markup_percent": 0})
    if answer["totals"] is None:
        return
    dearer = estimated({**request, "markup_percent": 12.5})
    for one, other in zip(money(answer["totals"]["total"]), money(dearer["totals"]["total"]), strict=True):
        assert one <= other
