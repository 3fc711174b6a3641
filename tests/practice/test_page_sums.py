"""A sum typed as an answer is worked out exactly and shown; a slip not known gets the next best help."""

from __future__ import annotations

import random
import re
from fractions import Fraction

import pytest
from playwright.sync_api import expect

from courseware.practice.one_file import page_script


@pytest.fixture(scope="module")
def js(browser):
    page = browser.new_page()
    script = page_script(("figures", "units", "written", "sums", "judge", "part_kinds", "words"))
    page.evaluate(
        f"() => {{ {script}\nPART_KINDS.number = {{opensLine: true}}; PART_KINDS.choice = {{}};"
        "globalThis.own = { sumTyped, judgeTyped, nextBestHelp, exact, exactText }; }"
    )
    yield lambda code, given: page.evaluate(f"given => {{ const own = globalThis.own;\n{code} }}", given)
    page.close()


SUM = "const s = own.sumTyped(given); return s && [s.figure, s.shown, s.unit, String(s.value.n), String(s.value.d)]"


@pytest.mark.parametrize(
    ("typed", "figure", "shown"),
    [
        ("7*225+10", "1585", "7 × 225 + 10 = 1585"),
        ("7 × 225 − 10", "1565", "7 × 225 − 10 = 1565"),
        ("10+7x225=", "1585", "10 + 7 × 225 = 1585"),
        ("12X75", "900", "12 × 75 = 900"),
        ("12x2", "24", "12 × 2 = 24"),
        ("(2400-10)/75", "31.866667", "(2400 − 10) ÷ 75 = 31.866667…"),
        (".5*65 + -2", "30.5", ".5 × 65 + −2 = 30.5"),
        ("0.1+0.2", "0.3", "0.1 + 0.2 = 0.3"),
        ("8-2-1", "5", "8 − 2 − 1 = 5"),
        ("24÷4÷2", "3", "24 ÷ 4 ÷ 2 = 3"),
    ],
)
def test_a_sum_is_worked_out_exactly(js, typed, figure, shown) -> None:
    """× and ÷ before + and −, from left to right (ISO 80000-2 for the signs; order: common convention of arithmetic)."""
    assert js(SUM, typed)[:2] == [figure, shown]


@pytest.mark.parametrize(
    ("typed", "unit"), [("7*225+10 mm", "mm"), ("2*3 m2", "m2"), ("2*3m²", "m²"), ("4*2 bricks", "bricks")]
)
def test_the_unit_stands_after_it(js, typed, unit) -> None:
    assert js(SUM, typed)[2] == unit


@pytest.mark.parametrize(
    "typed",
    ["", "7", "-7", "+", "7+", "7**2", "(7+2", "7+2)", "2(3)", "7/0", "1/(2-2)", "1,000+5", "7*225=1600", "a+b", "1e3+1",
     "12 or 13", "7.5.1+2", "1 2+3", "9" * 80 + "+1"],
)  # fmt: skip
def test_what_is_no_sum_is_left_to_be_asked(js, typed) -> None:
    assert js(SUM, typed) is None


def test_random_sums_come_to_what_python_says(js) -> None:
    """Checked against Python's own parser and exact fractions."""
    dice = random.Random(7)
    for _ in range(300):
        text = str(dice.randint(1, 999))
        for _ in range(dice.randint(1, 5)):
            text = f"({text})" if dice.random() < 0.3 else text
            text += dice.choice("+-*/") + str(dice.choice([dice.randint(1, 99), dice.randint(1, 99) / 4]))
        wrapped = re.sub(r"\d+(?:\.\d+)?", lambda number: f"Fraction('{number[0]}')", text)
        expected = eval(wrapped, {"Fraction": Fraction})  # a sum made here
        _, _, _, over, under = js(SUM, text)
        assert Fraction(int(over), int(under)) == expected, text


@pytest.mark.parametrize(
    ("typed", "asked", "how"),
    [
        ("7*225+10", {"right": "1585", "unit": "mm"}, "right"),
        ("7*225+10 mm", {"right": "1585", "unit": "mm"}, "right"),
        ("(7*225+10)/1000 m", {"right": "1585", "unit": "mm"}, "right"),
        ("7*225", {"right": "1585", "unit": "mm", "slips": [{"right": "1575", "says": "A joint too few"}]}, "slip"),
        ("100/3", {"right": "100/3"}, "right"),
        ("2*50/3", {"right": "100/3"}, "right"),
        ("110/8+0", {"right": "14", "before": "13.75"}, "rounding"),
        ("7*22.5", {"right": "1575", "unit": "mm"}, "tens"),
        ("7*225 bananas", {"right": "1575", "unit": "mm"}, "asked"),
        ("7*225 kg", {"right": "12", "unit": "mm"}, "unknown"),
    ],
)
def test_a_sum_is_judged_by_what_it_comes_to(js, typed, asked, how) -> None:
    assert js("return own.judgeTyped(...given).how", [typed, asked]) == how


HELP = """const [typed, part] = given; const whole = { kind: "number", ...part };
return own.nextBestHelp(own.judgeTyped(typed, whole), whole)"""
LINES = [{"say": "12 × 75", "right": "900"}, {"say": "Add the bed", "right": "910"}]


@pytest.mark.parametrize(
    ("typed", "size"),
    [("1999", ""), ("2000", ""), ("2001", "large"), ("501", ""), ("500", ""), ("499", "small"), ("0", "small")],
)
def test_a_figure_more_than_twice_off_is_told_to_estimate(js, typed, size) -> None:
    told = js(HELP, [typed, {"right": "1000", "working": LINES}])
    assert ("Estimate first" in told) is bool(size)
    assert size in told


def test_the_help_goes_by_size_then_unit_then_rule_then_the_first_line(js) -> None:
    rule = ["One joint more than bricks", "x", "y"]
    assert "too large" in js(HELP, ["7777", {"right": "910", "unit": "mm", "rule": rule, "working": LINES}])
    assert js(HELP, ["917", {"right": "910", "rule": rule, "working": LINES}]) == f"Check the rule first: {rule[0]}."
    assert js(HELP, ["917", {"right": "910", "working": LINES}]) == "Check this step first: 12 × 75."
    assert "unit" in js(HELP, ["917 kg", {"right": "910", "unit": "mm", "working": LINES}])
    assert "unit" in js(HELP, ["917", {"right": "910"}])
    assert js(HELP, ["900", {"right": "910", "slips": [{"right": "900", "says": "s"}], "working": LINES}]) == ""
    choice = "return own.nextBestHelp({ how: 'wrong' }, given)"
    assert "working" not in js(choice, {"kind": "choice", "right": "B", "working": LINES})
    assert js(choice, {"kind": "choice", "right": "B", "working": LINES}) != ""


def test_a_sum_is_shown_as_the_learners_own_working(phone) -> None:
    learner = phone()
    learner.put("opening-for-a-panel")
    right = int(learner.part()["right"])
    learner.write(f"2*{right}+1")
    learner.check()
    expect(learner.words()).to_contain_text(f"Your working: 2 × {right} + 1 = {2 * right + 1}. Not yet. Estimate first")
    learner.write(f"{right - 10}+10")
    learner.check()
    expect(learner.words()).to_contain_text(f"Your working: {right - 10} + 10 = {right}. Right")
    expect(learner.page.locator(".gave").first).to_have_text(f"Your working: {right - 10} + 10 = {right}")


def test_an_unknown_slip_is_never_told_not_yet_alone(phone) -> None:
    learner = phone()
    for exercise in ("opening-for-a-panel", "rise-of-a-lift", "which-rule", "what-fits-the-gap"):
        learner.put(exercise)
        learner.answer(right=False)
        assert len(learner.words().inner_text().split()) > 7, exercise


def test_signs_of_a_sum_are_at_hand_on_a_phone(phone) -> None:
    learner = phone(has_touch=True)
    learner.put("opening-for-a-panel")
    learner.write("7")
    for sign in ("×", "+", "−", "÷", "(", ")"):
        learner.press(learner.button(sign))
    expect(learner.page.locator("#answer")).to_have_value("7×+−÷()")
