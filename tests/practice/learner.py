"""Someone at the practice page, by touch or by keyboard alone, who knows the right answers from the file."""

from __future__ import annotations

import json
import re
from fractions import Fraction
from pathlib import Path
from typing import Any

from playwright.sync_api import Locator, Page, expect

from tests.practice.packed_kind import unpacked_kind

SLIP = "The joint at the far end was left out"  # what a slip that returns was
KEPT = "courseware-practice"
HEARD = """([key, newValue]) => {
  try { localStorage.setItem(key, newValue); } catch { /* a phone that keeps nothing */ }
  dispatchEvent(new StorageEvent("storage", {key, newValue}));
}"""


class Learner:
    """Someone at the page, by touch or by keyboard alone."""

    def __init__(self, page: Page, file: Path, *, keyboard: bool = False) -> None:
        self.page, self.file, self.keyboard = page, file, keyboard
        self.stops = False  # at the end of a sitting
        self.main = page.locator("main")
        self._text = file.read_text(encoding="utf-8")
        self.index: dict[str, Any] = json.loads(self._script("index"))
        self._kinds: dict[int, dict[str, Any]] = {}

    # What stands on the page

    def state(self) -> dict[str, str]:
        """What `main` says of what it shows: its screen and, of a question, stage, kind, variant and the open part."""
        return dict(self.page.evaluate("({...document.getElementById('main').dataset})"))

    def screen(self) -> str:
        return self.state()["screen"]

    def stage(self) -> str:
        return self.state()["stage"]

    def kind(self) -> dict[str, Any]:
        """What the index says of the kind of question now asked."""
        return self.index["kinds"][int(self.state()["kind"])]

    def question(self) -> dict[str, Any]:
        """The question now asked, with its answers."""
        return self._question(self.state())

    def _question(self, state: dict[str, str]) -> dict[str, Any]:
        place = int(state["kind"])
        if place not in self._kinds:
            self._kinds[place] = unpacked_kind(self._script(f"kind-{place}"))
        return self._kinds[place]["variants"][int(state["variant"])]

    def part(self) -> dict[str, Any]:
        """The part, or row of a table, that is open."""
        return self._part(self.state())

    def _part(self, state: dict[str, str]) -> dict[str, Any]:
        parts = [p for part in self._question(state)["parts"] for p in (part, *part.get("rows", ()))]
        return next(part for part in parts if part["name"] == state["open"])

    def line(self) -> dict[str, Any]:
        """What is asked of the open part: in a part-worked question one line of its working, else the part."""
        state = self.state()
        part = self._part(state)
        return part["working"][int(state["line"])] if state.get("line") else part

    def feedback(self) -> Locator:
        return self.page.locator("[data-role=feedback]").last

    def words(self) -> Locator:
        """What the page says of the answer, behind a sign that is not read out."""
        return self.feedback().locator("p").first

    def button(self, name: str) -> Locator:
        return self.main.get_by_role("button", name=name, exact=True)

    def kept(self) -> dict[str, Any]:
        """What the phone keeps."""
        return json.loads(self.page.evaluate("name => localStorage.getItem(name)", KEPT) or "{}")

    # What the learner does

    def open(self, screen: str = "") -> None:
        self.page.goto(self.file.as_uri() + screen)
        self._arrive(screen or "#topics")

    def _arrive(self, screen: str) -> None:
        """Waits until the page shows this screen: it marks the link, where there is one, as it fills the screen."""
        if not self.page.locator(f"nav a[href='{screen}']").count():
            expect(self.main).to_have_attribute("data-screen", screen[1:])
            return
        expect(self.page.locator(f"nav a[href='{screen}'][aria-current=page]")).to_have_count(1)
        if screen == "#practise":
            expect(self.main).to_have_attribute("data-stage", re.compile("."))

    def put(
        self, exercise: str, stage: str = "alone", *, variant: int = 0, rule: bool = False, due: bool = False
    ) -> None:
        """Puts a question of this exercise before the learner, as if the practice had come so far; `due`: a slip returns."""
        kind = next(kind for kind in self.index["kinds"] if kind["exercise"] == exercise)
        key = f"{kind['topic']}/{exercise}"
        own: dict[str, Any] = {"stage": stage, "seen": 1, "rights": [], "slips": {}, "open": "", "failed": 0, "turn": 1}
        if due:
            own["slips"] = {kind["parts"][0]: {"step": 1, "due": 1, "says": SLIP, "line": 0}}
        now = {"kind": key, "stage": stage, "variant": variant, "rule": rule}
        kept = {
            "form": 1,
            "start": 0,
            "turn": 1,
            "alone": 0,
            "round": 1,
            "last": key,
            "topics": [kind["topic"]],
            "now": now,
        }
        self.remember(kept | {"kinds": {key: own}})
        self.page.evaluate("location.hash = '#practise'")
        expect(self.main).to_have_attribute("data-stage", stage)

    def remember(self, kept: dict[str, Any]) -> None:
        """Puts what is kept in place of what was, as another window of the page would, and shows the topics."""
        self.page.evaluate("location.hash = '#topics'")
        self._arrive("#topics")
        self.page.evaluate(HEARD, [KEPT, json.dumps(kept)])

    def reload(self) -> None:
        self.page.reload()
        self._arrive(self.page.evaluate("location.hash") or "#topics")

    def set_day(self, day: str) -> None:
        """Sets the phone's clock to noon of a day."""
        self.page.clock.set_fixed_time(f"{day}T12:00:00")

    def go(self, name: str) -> None:
        """To a screen by its link."""
        link = self.page.get_by_role("navigation", name="Pages").get_by_role("link", name=name, exact=True)
        self.press(link)
        self._arrive(link.get_attribute("href") or "")

    def open_topics(self) -> None:
        """On the screen of progress, the rows of every topic."""
        self.main.locator("details.topic").evaluate_all("topics => topics.forEach(topic => { topic.open = true; })")

    def start(self, *topics: str) -> None:
        """From the topics to the first question; with topics named, those alone."""
        for topic, box in zip(self.index["topics"], self.main.get_by_role("checkbox").all(), strict=True):
            if topics and box.is_checked() != (topic["topic"] in topics):
                self.press(box)
        self.press(self.main.get_by_role("button", name=re.compile("^(Start|Go on)$")))
        expect(self.main).to_have_attribute("data-screen", "question")
        expect(self.main).to_have_attribute("data-stage", re.compile("."))

    def press(self, what: Locator) -> None:
        """A button, link or box, by touch or with the keys."""
        if not self.keyboard:
            what.click()
            return
        self.tab_to(what)
        boxed = what.get_attribute("type") in {"checkbox", "radio"}
        self.page.keyboard.press("Space" if boxed else "Enter")

    def tab_to(self, what: Locator) -> None:
        wanted = what.element_handle()
        for _ in range(80):
            if wanted.evaluate("it => it === document.activeElement"):
                return
            self.page.keyboard.press("Tab")
        raise AssertionError(f"{what} is not reached with the Tab key")

    def write(self, text: str) -> None:
        field = self.page.locator("#answer")
        if self.keyboard:
            self.tab_to(field)
            self.page.keyboard.press("ControlOrMeta+a")
            self.page.keyboard.type(text)
        else:
            field.fill(text)

    def check(self) -> None:
        self.press(self.button("Check"))

    def answer(self, *, right: bool = True) -> None:
        """Answers what is open, and waits for what the page says of it."""
        self.answer_rule()
        part = self.part()
        {"number": self._number, "choice": self._choice, "order": self._order, "drawn": self._drawn}[part["kind"]](
            part, right=right
        )
        if part["kind"] != "drawn":
            expect(self.feedback()).to_have_attribute("data-how", re.compile("."))

    def answer_rule(self) -> bool:
        """Answers `Which rule is this?`, where it is asked."""
        rule = self.page.locator("section[data-role=rule]:has(input:enabled)")
        if not rule.count():
            return False
        rule = self.page.locator("section[data-role=rule]").last
        self.choose(rule.get_by_role("radio", name=self.rules()[0], exact=True))
        self.press(rule.get_by_role("button", name="Check"))
        self.press(self.button("Go on"))
        return True

    def rules(self) -> list[str]:
        """The rules to choose from, the right one first."""
        offered = {radio.get_attribute("value") for radio in self.page.locator("section[data-role=rule] input").all()}
        parts = [p for part in self.question()["parts"] for p in part.get("rows", [part])]
        return next(part["rule"] for part in parts if set(part.get("rule", ())) == offered)

    def on(self) -> bool:
        """Goes on to the next part or, where there is none, to the next question; whether it is a part."""
        if self.button("Go on").count():
            self.press(self.button("Go on"))
        if self.button("Next question").count():
            self.next_question()
            return False
        return True

    def next_question(self) -> None:
        state = self.state()
        asked = [state[name] for name in ("kind", "variant", "stage")]
        self.press(self.button("Next question"))
        self.page.wait_for_function(
            "was => ['kind', 'variant', 'stage'].some((n, i) => document.querySelector('main').dataset[n] !== was[i])",
            arg=asked,
        )
        if self.screen() == "end" and not self.stops:
            self.another_sitting()

    def another_sitting(self) -> None:
        """From the end of a sitting to the first question of the next."""
        self.press(self.main.locator("button.next"))
        expect(self.main).to_have_attribute("data-stage", re.compile("."))

    def finish(self, *, right: bool = True) -> None:
        """Does the question to its end. Not `right`: the first part wrong, then its working is shown."""
        if self.stage() == "worked":
            self.next_question()
            return
        self.answer(right=right)
        if not right and self.button("Show the working").count():
            self.press(self.button("Show the working"))
        while self.on():
            self.answer()

    def until(self, stage: str, *, most: int = 12) -> None:
        """Answers rightly until a question of this stage comes."""
        for _ in range(most):
            if self.stage() == stage:
                return
            self.finish()
        raise AssertionError(f"no question of stage {stage} came")

    # Answers to each kind of part

    def right_text(self) -> str:
        """The right figure as a learner writes it."""
        asked = self.line()
        if "answer" in asked:
            return str(asked["answer"])
        return str(asked.get("figure") or asked["right"])

    def _number(self, part: dict[str, Any], *, right: bool) -> None:
        self.write(self.right_text() if right else self.wrong_text())
        self.check()

    def wrong_text(self) -> str:
        """A figure that is neither right nor any named slip."""
        part = self.part()
        known = [Fraction(part["right"]), *(Fraction(slip["right"]) for slip in part.get("slips", ()))]
        known += [Fraction(line["right"]) for line in part.get("working", ()) if "right" in line]
        return next(str(figure) for figure in range(7771, 9999, 11) if figure not in known)

    def choose(self, radio: Locator) -> None:
        """One radio of its group, by touch or with Tab and the arrow keys."""
        if not self.keyboard:
            radio.check()
            return
        group = self.page.locator(f"input[type=radio][name='{radio.get_attribute('name')}']")
        wanted = radio.get_attribute("value")
        for _ in range(80):
            if self.page.evaluate("name => document.activeElement?.name === name", radio.get_attribute("name")):
                break
            self.page.keyboard.press("Tab")
        self.page.keyboard.press("Space")
        for _ in range(group.count()):
            if self.page.evaluate("document.activeElement.value") == wanted:
                return
            self.page.keyboard.press("ArrowDown")
        raise AssertionError(f"{radio} is not reached with the arrow keys")

    def _choice(self, part: dict[str, Any], *, right: bool) -> None:
        letters = part["right"].split(",")
        others = [letter for letter, _ in part["options"] if letter not in letters]
        wanted = letters if right else others[:1]
        for letter, _ in part["options"]:
            if part.get("several"):
                box = self.main.get_by_role("checkbox", name=re.compile(rf"^{letter}\b"))
                if box.is_checked() != (letter in wanted):
                    self.press(box)
            elif letter in wanted:
                self.choose(self.main.get_by_role("radio", name=re.compile(rf"^{letter}\b")))
        self.check()

    def letters(self) -> list[str]:
        """The steps of an order part as they stand."""
        found = self.main.locator("li[data-letter]").evaluate_all("items => items.map(item => item.dataset.letter)")
        return [str(letter) for letter in found]

    def _order(self, part: dict[str, Any], *, right: bool) -> None:
        says = dict(part["options"])
        wanted = part["right"].split(",") if right else []
        for place, letter in enumerate(wanted):
            while self.letters()[place] != letter:
                self.press(self.button(f"Move up: {says[letter]}"))
        self.check()

    def _drawn(self, part: dict[str, Any], *, right: bool) -> None:
        self.press(self.button("I have drawn it"))
        for box in self.main.get_by_role("checkbox").all():
            if right:
                self.press(box)
        self.press(self.button("Done"))

    def _script(self, name: str) -> str:
        found = re.search(rf'<script[^>]*\bid="?{name}"?[^>]*>(.*?)</script>', self._text, re.DOTALL)
        assert found, f"the page has no script {name}"
        return found.group(1)
