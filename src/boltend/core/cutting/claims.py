"""What may be said of a plan: never more than is proved."""

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from boltend.core.cutting.plans import Plan

Of = Literal["any", "simple", "stacks"]
"""What a claim is about: any way of cutting from edge to edge, simple strips, strips with stacks."""


@dataclass(frozen=True, slots=True)
class Standing:
    """How near a plan is to the least.

    - `least`: nothing takes less than `amount`.
    - `buys least`: nothing buys less than `amount`, though it might be shorter by less than a step.
    - `within`: at most `amount` above the least.
    - `good`: a good plan, no proof was looked for; nothing takes less than `amount`.
    - `short`: not every piece is cut; all of them would take at least `amount`.

    `amount` is in inches, sheets or square inches, as the plan's goal is. `widest` limits the claim to plans
    of strips no wider.
    """

    kind: Literal["least", "buys least", "within", "good", "short"]
    of: Of
    amount: Fraction
    widest: Fraction | None = None


def standing_of(plan: Plan) -> Standing:
    """Tell how near a plan is to the least."""
    answer, bound, least = plan.answer, plan.bound, plan.least
    if plan.lacking:
        return Standing("short", "any", bound)
    if answer == bound:
        return Standing("least", "any", bound)
    of: Of = "stacks" if plan.stacks else "simple"
    if least is not None and answer == least:
        return Standing("least", of, answer, plan.widest)
    steps = plan.steps if plan.goal == "length" else None
    if steps is not None:
        bought = steps.bought(answer)
        if bought == steps.bought(bound):
            return Standing("buys least", "any", bought)
        if least is not None and bought == steps.bought(least):
            return Standing("buys least", of, bought, plan.widest)
        if least is not None:
            return Standing("within", of, bought - steps.bought(least), plan.widest)
    if least is not None:
        return Standing("within", of, answer - least, plan.widest)
    return Standing("good", "any", bound)


def inches_text(length: Fraction) -> str:
    """Show a length in inches as a mixed number; callers with a notation of their own pass another."""
    whole, rest = divmod(length, 1)
    if not rest:
        return f"{whole} in"
    return f"{whole} {rest} in" if whole else f"{rest} in"


def amount_text(goal: str, amount: Fraction, show: Callable[[Fraction], str] = inches_text) -> str:
    """Show an amount of what a plan makes small."""
    if goal == "sheets":
        return f"{amount} {'sheet' if amount == 1 else 'sheets'}"
    return show(amount) if goal == "length" else f"{float(amount):g} sq in"


PLANS: dict[Of, str] = {
    "any": "way of cutting from edge to edge",
    "simple": "plan of simple strips",
    "stacks": "plan of strips with equal pieces above each other",
}


def claim_of(
    standing: Standing,
    say: Callable[[Fraction], str],
    buy: Callable[[Fraction], str] | None = None,
) -> str:
    """Put a standing in words; `say` shows an amount that is cut, `buy` one that is bought."""
    buy = buy or say
    plans = PLANS[standing.of]
    wide = f" up to {say(standing.widest)} wide" if standing.widest is not None else ""
    match standing.kind:
        case "short":
            return f"not enough cloth for every piece; all of them would take at least {say(standing.amount)}"
        case "least" if standing.of == "any":
            return f"proved least: no {plans} takes less than {say(standing.amount)}"
        case "least":
            return f"proved least for {plans.replace('plan', 'plans', 1)}{wide}"
        case "buys least":
            return f"proved least to buy: no {plans}{wide} buys less than {buy(standing.amount)}"
        case "within":
            return f"within {buy(standing.amount)} of the least for {plans.replace('plan', 'plans', 1)}{wide}"
    return f"a good plan; the least possible is at least {say(standing.amount)}"


def claim(plan: Plan, show: Callable[[Fraction], str] = inches_text) -> str:
    """Say how near a plan is to the least; `show` gives inches in a notation of the caller's."""
    return claim_of(standing_of(plan), lambda amount: amount_text(plan.goal, amount, show))
