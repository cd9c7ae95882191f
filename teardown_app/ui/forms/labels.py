"""Forms about labels: a roll, a register, start, nudge, printer; printed again, void, in place of a lost one."""

from __future__ import annotations

from typing import TYPE_CHECKING

from teardown_app.domain.parts.parts import number_of
from teardown_app.ui.form import Form, Values
from teardown_app.ui.forms.asking import choose, first_open, text, whole
from teardown_app.ui.label_printing import print_labels
from teardown_app.ui.view import ACCEPT, COUNT, NUMBER, TAG, Field
from teardown_app.workflows.act import Act, Drafts, ShopAct, refuse
from teardown_app.workflows.label import number_of_ours
from teardown_app.workflows.label_queue import check_count, first_label, replace, reprint, void
from teardown_app.workflows.numbering import badge_people, number_places

if TYPE_CHECKING:
    from teardown_app.labels.label import Label
    from teardown_app.ui.desk import Desk

LABELS_FOR = {
    "parts": "P",
    "hardware bags": "H",
    "carriers": "C",
    "places": "S",
    "instruments": "M",
    "baths": "B",
    "crates": "X",
    "people": "W",
    "jobs": "J",
}
REGISTERS = ("places", "carriers", "instruments", "people", "bags of this job", "this job")
FILE = "only a file"
GIVE, AS_THEY_ARE = "give numbers to the rest", "only those that have a number"
AGAIN = ("came off", "cannot be read")
SPOILED = ("spoiled in the printer", "lost", "torn")


def _ask_roll(desk: Desk, values: Values) -> Field | None:
    what = values.get("what", "")
    count = Field("count", f"How many labels for {what}?", COUNT, choices=("10", "40", "100", "200"))
    return first_open(values, choose("what", "What are the labels for?", LABELS_FOR), count)


def _roll(desk: Desk, values: Values) -> None:
    from teardown_app.labels.label import blank_label

    count = whole(values, "count")
    check_count(count)
    numbers, draft = desk.workshop.new_numbers(LABELS_FOR[str(values["what"])], count)
    print_labels(desk, [blank_label(number) for number in numbers], f"roll-{numbers[0]}", issued=[draft])


def _ask_register(desk: Desk, values: Values) -> Field | None:
    asks = [choose("what", "Labels for what?", REGISTERS)]
    if _without(desk, str(values.get("what", ""))):
        asks.append(choose("give", f"Some {values['what']} have no number yet.", (GIVE, AS_THEY_ARE)))
    return first_open(values, *asks)


def _without(desk: Desk, what: str) -> bool:
    """True where some of that register have no number or badge."""
    shop = desk.workshop.shop
    if what == "places":
        return any(not one.number for one in shop.places())
    everybody = shop.people().values() if what == "people" else ()
    return any(not one.badge and not one.revoked for one in everybody)


def _register(desk: Desk, values: Values) -> None:
    what = str(values["what"])
    if values.get("give") == GIVE:
        letter, give = ("S", number_places) if what == "places" else ("W", badge_people)

        def build(act: ShopAct) -> Drafts:
            return give(act, lambda count: desk.workshop.new_numbers(letter, count))

        desk.shop_act(build, f"Numbers for {what}.")
    labels = _labels_of(desk, what)
    if not labels:
        refuse(f"None of {what} has a number.", "Register them, or count into bags with a label, first.")
    print_labels(desk, labels, what.split()[0])


def _labels_of(desk: Desk, what: str) -> list[Label]:
    from teardown_app.labels.label import bags_of, label_of_job, labels_of

    if what in REGISTERS[:4]:
        return labels_of(desk.workshop.shop, what)
    if not desk.job_number:
        refuse("No job is in hand.", "Choose a job first.")
    return [label_of_job(desk.job)] if what == REGISTERS[5] else list(bags_of(desk.job).values())


def _start(desk: Desk, values: Values) -> None:
    n, stock = whole(values, "n"), desk.labels.in_use()
    if not 1 <= n <= stock.per_page:
        refuse(f"Stock {stock.name} has labels 1 to {stock.per_page} on a page, not {n}.", "Count row by row.")
    desk.labels.start_at = n


def _ask_start(desk: Desk, values: Values) -> Field | None:
    stock = desk.labels.stock()
    offered = tuple(dict.fromkeys(("1", str(desk.labels.printers.next_free(stock)))))
    hint = f"1 to {stock.per_page}, row by row from the top left"
    asks = "Which is the first free label of the sheet?"
    return first_open(values, Field("n", asks, COUNT, choices=offered, hint=hint))


def _ask_nudge(desk: Desk, values: Values) -> Field | None:
    hint = "In steps of 0.1 mm, as the scales of the test page show"
    return first_open(
        values,
        Field("x", "How far to the right? A minus is to the left", NUMBER, unit="mm", hint=hint),
        Field("y", "How far down? A minus is up", NUMBER, unit="mm", hint=hint),
    )


def _nudge(desk: Desk, values: Values) -> None:
    stock = desk.labels.in_use()
    x, y = (_length(str(values[side])) for side in "xy")
    printer = desk.labels.printers.chosen(stock.name)
    x, y = desk.labels.printers.keep_nudge(stock.name, printer, x, y)
    desk.say(f"Nudged {x:+.1f} mm to the right, {y:+.1f} mm down. Print the test page again.", ACCEPT)


def _length(entered: str) -> float:
    text = entered.removesuffix("mm").strip().replace(",", ".")
    try:
        return float(text)
    except ValueError:
        refuse(f"{text} is no length.", "Enter millimetres, such as 0.3 or -0.5.")


def _printer(desk: Desk, values: Values) -> None:
    named = str(values["printer"])
    desk.labels.printers.choose(desk.labels.in_use().name, "" if named == FILE else named.partition("  ")[0])


def _again(desk: Desk, values: Values) -> None:
    number, why = number_of_ours(str(values["number"])).number, str(values["why"])
    job = desk.job_number if desk.job_number and desk.workshop.label_for(number, desk.job_number) else ""
    job = job or desk.workshop.job_behind(number)

    def build(act: ShopAct) -> Drafts:
        return reprint(act, number, desk.workshop.stands_for, job=job, why=why)

    desk.shop_act(build, f"{number} waits to be printed again.")


def _void(desk: Desk, values: Values) -> None:
    number, why = number_of_ours(str(values["number"])).number, str(values["why"])
    letters = desk.workshop.home.letters

    def build(act: ShopAct) -> Drafts:
        return void(act, number, desk.workshop.stands_for, why=why, letters=letters)

    desk.shop_act(build, f"{number} is void. Destroy the label if you have it.")


def _ask_another(desk: Desk, values: Values) -> Field | None:
    has = number_of(desk.job, str(values["part"]))
    return first_open(values, text("why", f"What became of {has}?", AGAIN)) if has else None


def _another(desk: Desk, values: Values) -> None:
    """A number from this tablet, whose label is printed: no roll is at hand."""
    part = str(values["part"])
    numbers, issued = desk.workshop.new_numbers("P", 1)

    def build(act: Act) -> Drafts:
        if values.get("why"):
            return replace(act, part, number=numbers[0], why=str(values["why"]))
        return first_label(act, part, number=numbers[0])

    desk.act(build, f"New label {numbers[0]} waits in the office to be printed.", first=[issued])


def _which(asks: str) -> Field:
    return Field("number", asks, TAG, wants="any")


FORMS = (
    Form("roll", "new roll", _ask_roll, _roll),
    Form("labels for", "labels for what is there", _ask_register, _register),
    Form("start at", "begun sheet", _ask_start, _start),
    Form("nudge", "nudge", _ask_nudge, _nudge),
    Form(
        "printer",
        "printer",
        lambda _, values: first_open(values, choose("printer", "Which printer has this stock?", values["there"])),
        _printer,
    ),
    Form(
        "print again",
        "print again",
        lambda _, values: first_open(
            values, _which("Which label? Type its number"), text("why", "Why is it printed again?", AGAIN)
        ),
        _again,
    ),
    Form(
        "void",
        "make void",
        lambda _, values: first_open(
            values,
            _which("Which label is void? Scan it, or type its number"),
            text("why", "What became of it?", SPOILED),
        ),
        _void,
    ),
    Form("another label", "label", _ask_another, _another),
)
