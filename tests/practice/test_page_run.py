"""A whole practice on a phone 320 px wide: from file://, offline, by touch and by keyboard alone, light and dark."""

from __future__ import annotations

import re
from itertools import pairwise

import pytest
from playwright.sync_api import expect

EVERY_KIND = {"number", "choice", "order", "table", "drawn"}


def kinds_in(learner) -> set[str]:
    return {part["kind"] for part in learner.question()["parts"]}


def fits(learner) -> bool:
    """Whether nothing has to be scrolled to the side (WCAG 2.2, 1.4.10)."""
    return learner.page.evaluate("document.documentElement.scrollWidth <= window.innerWidth")


@pytest.mark.parametrize(("scheme", "keyboard"), [("light", False), ("dark", True)])
def test_a_whole_practice(phone, scheme, keyboard) -> None:
    """From the first screen through an example, a step and a question alone; then a question with each kind of part."""
    learner = phone(keyboard=keyboard, color_scheme=scheme)
    requests = []
    learner.page.on("request", lambda request: requests.append(request.url))
    assert learner.screen() == "topics"
    learner.start()
    stages = []
    for _ in range(4):
        assert fits(learner), learner.kind()
        stages.append(learner.stage())
        learner.finish()
    assert stages == ["worked", "part", "alone", "worked"]
    met: set[str] = set()
    for exercise in ("order-of-the-rod", "marks-on-a-new-rod", "heights-that-weave"):
        learner.put(exercise)
        met |= kinds_in(learner)
        assert fits(learner), exercise
        learner.finish()
        assert fits(learner), exercise
    assert met == EVERY_KIND
    for name in ("Progress", "Save or load", "Topics", "Practise"):
        learner.go(name)
        expect(learner.page.locator("[aria-current=page]")).to_have_text(name)
        assert fits(learner), name
        if name == "Progress":
            expect(learner.main).to_contain_text("Right once")
    assert requests == []


def test_exactly_one_request(browser, practice_file) -> None:
    """The file itself: no font, picture, script or icon beside it."""
    context = browser.new_context(viewport={"width": 320, "height": 640})
    page = context.new_page()
    requests: list[str] = []
    page.on("request", lambda request: requests.append(request.url))
    page.goto(practice_file.as_uri())
    page.get_by_role("button", name="Start").click()
    expect(page.locator("main")).to_have_attribute("data-screen", "question")
    page.wait_for_load_state("networkidle")
    context.close()
    assert requests == [practice_file.as_uri()]


def test_a_page_on_a_college_site_asks_for_nothing_else(browser, practice_file) -> None:
    """Served, not opened from a file: a browser would ask for an icon, and a service worker or a font would show."""
    context = browser.new_context(viewport={"width": 320, "height": 640})
    asked: list[str] = []

    def serve(route) -> None:
        asked.append(route.request.url)
        route.fulfill(content_type="text/html; charset=utf-8", body=practice_file.read_text(encoding="utf-8"))

    context.route("**/*", serve)
    page = context.new_page()
    page.goto("https://college.example/bricks/practice.html")
    page.get_by_role("button", name="Start").click()
    expect(page.locator("main")).to_have_attribute("data-screen", "question")
    context.close()
    assert asked == ["https://college.example/bricks/practice.html"]


def test_an_example_is_worked_through_to_the_answer(phone) -> None:
    learner = phone()
    learner.start()
    assert learner.stage() == "worked"
    expect(learner.main).to_contain_text("Worked example")
    for part in learner.question()["parts"]:
        section = learner.page.locator(f"section[data-part='{part['name']}']")
        expect(section).to_have_attribute("data-state", "given")
        for line in part.get("working", []):
            expect(section).to_contain_text(line["say"])
        if "answer" in part:
            expect(section).to_contain_text(part["answer"])


def test_a_part_worked_question_leaves_one_step(phone) -> None:
    learner = phone()
    learner.start()
    learner.until("part")
    expect(learner.main).to_contain_text("One step left to you")
    assert learner.page.locator("section[data-state=open]").count() == 1
    assert learner.page.locator("#answer").count() == 1
    learner.answer()
    expect(learner.words()).to_have_text(re.compile(r"^\W*Right"))


def alone_with_slips(phone, **options):
    """A learner on their own before a length in mm that has named slips."""
    learner = phone(**options)
    learner.put("opening-for-a-panel")
    return learner


def a_slip(part) -> dict[str, str]:
    """A slip of a part whose figure can be typed as it is, and which no other slip shares."""
    figures = [slip["right"] for slip in part["slips"]]
    return next(s for s in part["slips"] if re.fullmatch(r"[\d.]+", s["right"]) and figures.count(s["right"]) == 1)


def test_a_slip_is_named_and_may_be_put_right_once(phone) -> None:
    learner = alone_with_slips(phone)
    slip, right = a_slip(learner.part()), learner.right_text()
    learner.write(slip["right"])
    learner.check()
    expect(learner.feedback()).to_have_attribute("data-how", "slip")
    expect(learner.words()).to_have_text(re.compile(r"^\W*Not yet"))
    expect(learner.feedback()).to_contain_text(slip["says"])
    expect(learner.page.locator("#answer")).to_be_focused()
    assert right.split()[0] not in learner.feedback().inner_text()
    learner.write(right)
    learner.check()
    expect(learner.words()).to_have_text(re.compile(r"^\W*Right"))
    expect(learner.page.locator("section[data-state=helped]")).to_have_count(1)


def test_after_a_second_wrong_answer_the_working_is_shown(phone) -> None:
    learner = alone_with_slips(phone)
    part = learner.part()
    learner.write(a_slip(part)["right"])
    learner.check()
    learner.write(learner.wrong_text())
    learner.check()
    expect(learner.feedback()).to_contain_text("Here is the working")
    section = learner.page.locator(f"section[data-part='{part['name']}']")
    expect(section).to_have_attribute("data-state", "shown")
    for line in part["working"]:
        expect(section.locator("ol[data-role=working]")).to_contain_text(line["say"])
    expect(section).to_contain_text(f"The answer is {part['answer']}")
    assert learner.page.locator("#answer").count() == 0 or learner.page.locator("#answer").is_disabled()


def test_after_a_slip_the_same_kind_comes_with_that_step_open(phone) -> None:
    learner = alone_with_slips(phone)
    kind, variant, slipped = learner.kind()["exercise"], learner.question(), learner.part()["name"]
    learner.write(a_slip(learner.part())["right"])
    learner.check()
    learner.press(learner.button("Show the working"))
    while learner.on():
        learner.answer()
    assert learner.stage() == "part"
    assert learner.kind()["exercise"] == kind
    assert learner.question() != variant
    assert learner.part()["name"] == slipped
    learner.finish()
    assert (learner.stage(), learner.kind()["exercise"]) == ("alone", kind)


def test_what_cannot_be_read_uses_up_no_try(phone) -> None:
    learner = alone_with_slips(phone)
    for typed in ("", "about 900", "12 or 13", "?", "1e3"):
        learner.write(typed)
        learner.check()
        expect(learner.feedback()).to_have_attribute("data-how", "asked" if typed else "blank")
    learner.write(learner.right_text())
    learner.check()
    expect(learner.page.locator("section[data-state=right]").last).to_be_visible()


def test_a_length_may_be_written_in_many_ways(phone) -> None:
    learner = alone_with_slips(phone)
    for written in ("{mm}", "{mm} mm", " {mm}mm. ", "{mm},0", "{m} m", "{comma} m", "{mm}.0 millimetres"):
        learner.put("opening-for-a-panel")
        mm = learner.part()["right"]
        metres = f"{int(mm) / 1000:.3f}"
        learner.write(written.format(mm=mm, m=metres, comma=metres.replace(".", ",")))
        learner.check()
        expect(learner.feedback()).to_have_attribute("data-how", "right")
        expect(learner.page.locator(f"section[data-part={learner.question()['parts'][0]['name']}]")).to_have_attribute(
            "data-state", "right"
        )


def test_what_is_said_of_an_answer_is_read_out(phone) -> None:
    """WCAG 2.2, 4.1.3: by a live region, and the same again when the same slip is made again."""
    learner = alone_with_slips(phone)
    said = learner.page.locator("#said")
    expect(said).to_have_attribute("role", "status")
    learner.write(a_slip(learner.part())["right"])
    learner.check()
    expect(said).to_have_text(learner.words().inner_text().lstrip("✗"))
    learner.write(learner.right_text())
    learner.check()
    expect(said).to_have_text(re.compile("^Right"))


PRACTISE = """
({days, each, clean}) => {
  const {chooseNext, finishQuestion, freshMemory, isSecure, readIndex, takeSlip, putRight, takeRight} = globalThis.code;
  const kinds = readIndex().kinds, memory = freshMemory(5), asked = [];
  for (let day = 20000; day < 20000 + days; day += 1) {
    for (let turn = 0; turn < each; turn += 1) {
      const now = chooseNext(memory, kinds, day), kind = kinds.find(one => one.key === now.kind);
      const right = clean[asked.length % clean.length], own = memory.kinds[now.kind];
      asked.push({day, key: now.kind, topic: kind.topic, rule: kind.rule, stage: now.stage, variant: now.variant, secure: isSecure(own), ruleFirst: now.rule, asks: kind.asks, right});
      if (now.stage !== "worked" && !right) takeSlip(own, kind.parts[0], "", 0, day);
      if (now.stage === "alone" && right) { kind.parts.forEach(part => putRight(own, part, day)); takeRight(own, day); }
      finishQuestion(memory, now, now.stage === "worked" || right);
    }
  }
  return {asked, kinds: kinds.length, memory};
}
"""
ALWAYS_RIGHT, NOW_AND_THEN_WRONG = [True], [True, True, True, False, True, True, False, True, True, True, True]


@pytest.mark.parametrize("clean", [ALWAYS_RIGHT, NOW_AND_THEN_WRONG], ids=["always right", "now and then wrong"])
def test_never_the_same_rule_in_two_turns_running(own_code, clean) -> None:
    """A month of practice by the page's own code: a turn is all questions of a kind that come one after another."""
    asked = own_code.evaluate(PRACTISE, {"days": 30, "each": 12, "clean": clean})["asked"]
    turns = [one for place, one in enumerate(asked) if place == 0 or one["key"] != asked[place - 1]["key"]]
    assert len(turns) > 100
    assert all(one["rule"] != other["rule"] for one, other in pairwise(turns))
    assert all(one["topic"] != other["topic"] for one, other in pairwise(turns[:9]))


def test_in_a_month_every_exercise_is_met_and_no_variant_comes_twice_soon(own_code) -> None:
    found = own_code.evaluate(PRACTISE, {"days": 30, "each": 12, "clean": ALWAYS_RIGHT})
    assert len({one["key"] for one in found["asked"]}) == found["kinds"]
    for key in {one["key"] for one in found["asked"]}:
        variants = [one["variant"] for one in found["asked"] if one["key"] == key]
        assert len(set(variants[:12])) == min(12, len(variants))


def test_now_and_then_the_rule_is_asked_first(phone) -> None:
    learner = phone()
    learner.put("opening-for-a-panel", rule=True)
    rule = learner.page.locator("section[data-role=rule]")
    right, *others = learner.rules()
    assert rule.get_by_role("radio").count() == 3 == len({right, *others})
    expect(rule.locator("legend")).to_have_text("Which rule is this?")
    assert learner.page.locator("#answer").count() == 0
    learner.choose(rule.get_by_role("radio", name=others[0], exact=True))
    learner.press(rule.get_by_role("button", name="Check"))
    expect(rule.locator("[data-role=feedback]")).to_contain_text(right)
    learner.press(learner.button("Go on"))
    expect(learner.page.locator("#answer")).to_be_visible()


@pytest.mark.parametrize("clean", [ALWAYS_RIGHT, NOW_AND_THEN_WRONG], ids=["always right", "now and then wrong"])
def test_the_rule_is_asked_of_what_is_secure_neither_always_nor_hardly_ever(own_code, clean) -> None:
    """One in five to one in two of the questions alone that are secure and have a rule to ask; none of any other."""
    asked = own_code.evaluate(PRACTISE, {"days": 30, "each": 12, "clean": clean})["asked"]
    alone = [one for one in asked if one["stage"] == "alone" and one["asks"] and one["secure"]]
    assert len(alone) > 40
    assert len(alone) / 5 <= sum(one["ruleFirst"] for one in alone) <= len(alone) / 2
    assert not [one for one in asked if one["ruleFirst"] and one not in alone]


def before_an_order(phone, **options):
    """A learner on their own before steps to put in order."""
    learner = phone(**options)
    learner.put("setting-out-order")
    assert learner.part()["kind"] == "order"
    return learner


def test_steps_are_moved_by_buttons_and_say_where_they_stand(phone) -> None:
    learner = before_an_order(phone, keyboard=True)
    first, second, *rest = learner.letters()
    says = dict(learner.part()["options"])
    learner.press(learner.button(f"Move down: {says[first]}"))
    assert learner.letters() == [second, first, *rest]
    expect(learner.button(f"Move down: {says[first]}")).to_be_focused()
    learner.press(learner.button(f"Move up: {says[first]}"))
    assert learner.letters() == [first, second, *rest]
    expect(learner.page.locator("#said")).to_have_text(re.compile(r"1 of \d|first", re.IGNORECASE))


def test_steps_are_moved_by_dragging(phone) -> None:
    learner = before_an_order(phone)
    before = learner.letters()
    items = learner.main.locator("li[data-letter]")
    handle = items.first.locator(".handle").bounding_box()
    items.first.locator(".handle").scroll_into_view_if_needed()
    handle, last = items.first.locator(".handle").bounding_box(), items.last.bounding_box()
    mouse = learner.page.mouse
    mouse.move(handle["x"] + handle["width"] / 2, handle["y"] + handle["height"] / 2)
    mouse.down()
    mouse.move(handle["x"] + 5, handle["y"] + 30, steps=3)
    mouse.move(handle["x"] + 5, last["y"] + last["height"] - 4, steps=8)
    mouse.up()
    assert learner.letters() == [*before[1:], before[0]]


def test_the_drawing_is_looked_at_larger(phone) -> None:
    learner = phone(keyboard=True)
    learner.put("rise-of-a-lift")
    small = learner.page.locator("figure[data-role=drawing] svg.narrow")
    expect(small).to_have_attribute("role", "img")
    wide = small.bounding_box()["width"]
    assert wide <= 320
    enlarge = learner.button("Enlarge the drawing")
    learner.press(enlarge)
    dialog = learner.page.get_by_role("dialog", name="Drawing")
    large = dialog.locator("svg")
    assert large.bounding_box()["width"] > wide
    now = large.bounding_box()["width"]
    learner.press(dialog.get_by_role("button", name="Larger"))
    assert large.bounding_box()["width"] > now
    learner.page.keyboard.press("Escape")
    expect(dialog).to_have_count(0)
    expect(enlarge).to_be_focused()


def test_cautions_stand_with_what_is_cut_lifted_or_climbed(phone) -> None:
    learner = phone()
    learner.start("Course gauge")
    caution = learner.page.locator("details[data-role=caution]").first
    expect(caution).to_be_visible()
    expect(caution.locator("summary")).to_have_text(re.compile("^Caution: "))


def test_a_browser_that_knows_the_stream_but_not_the_packing_is_told(browser, practice_file) -> None:
    context = browser.new_context(viewport={"width": 320, "height": 640})
    context.add_init_script("""
        const Whole = globalThis.DecompressionStream;
        globalThis.DecompressionStream = class extends Whole {
          constructor(format) { if (format === "deflate-raw") throw new TypeError(format); super(format); }
        };
    """)
    page = context.new_page()
    page.goto(practice_file.as_uri())
    expect(page.get_by_role("heading", name="This browser is too old for this page")).to_be_visible()
    expect(page.get_by_text("ask your tutor for the printed practice booklet")).to_be_visible()
    assert page.get_by_role("button", name="Start").count() == 0
    context.close()
