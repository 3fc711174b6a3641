"""The feedback sheet as finished text. Expected lines and words were decided by hand from the shipped banks."""

from __future__ import annotations

from dataclasses import replace
from typing import get_args

import pytest

from courseware.banks import solve
from courseware.banks.number_part import SolvedNumber, rounded
from courseware.feedback.compose import feedback_sheet, fit_to_print
from courseware.feedback.feedback_text import HERE, PLAIN, STANDS
from courseware.feedback.marked_part import NoMarks
from courseware.marking.marks import How, NamedSlip
from courseware.papers.sitting import Sitting
from courseware.part_kinds.number.feedback import where_it_left
from tests.feedback.marked_papers import WIDTH, marked, other, parts_of, slip

OPENINGS, SEQUENCES = "opening_sizes", "sequence_of_work"


def solved_number(sources, sitting: Sitting, exercise: str, part: str) -> SolvedNumber:
    bank_exercise = next(e for _, e in sources.exercises.values() if e.name == exercise)
    issued = parts_of(sitting)[exercise, part][0]
    given = {g.name: next(v for v in g.values if str(v) == issued.given[g.name]) for g in bank_exercise.givens}
    return next(n for s in solve(bank_exercise, given) for n in s.numbers if n.part.name == part)


class TestFirstWrongLine:
    @pytest.mark.parametrize(("exercise", "part", "slip_number", "line", "why"), [
        (*WIDTH, 1, 2, "n × 225 is line 2: the extra joint, line 3, was left out"),
        (*WIDTH, 2, 1, "no line has the figure and nothing is earned: the first line that earns, n × 225"),
        (*WIDTH, 3, 1, "the same for n × 215"),
        ("opening-for-a-panel", "opening_height", 1, 2, "n × 75 is line 2: the top bed, line 3, was dropped"),
        ("which-rule", "stands_at", 2, 0, "no line has the figure, and a mark is earned: nothing tells which line"),
        ("what-fits-the-gap", "bricks_wide", 1, 0, "the joint was not taken off, which is line 1, and yet a mark is earned"),
        ("what-fits-the-gap", "bricks_wide", 2, 0, "divided by the work size, nothing earned: line 1"),
        ("wall-between-two-wings", "window_width", 1, 0, "a row with one line of working"),
    ])  # fmt: skip
    def test_is_the_one_decided_by_hand(self, on_openings, exercise, part, slip_number, line, why) -> None:
        sitting, sources, _ = on_openings
        assert where_it_left(solved_number(sources, sitting, exercise, part), slip_number - 1)[0] == line, why

    @pytest.mark.parametrize("topic", [OPENINGS, SEQUENCES])
    def test_never_has_the_slips_own_figure(self, topic, request) -> None:
        _, sources, spaces = request.getfixturevalue("on_openings" if topic == OPENINGS else "on_sequences")
        seen = 0
        for name, (_, exercise) in sources.exercises.items():
            for index in range(0, len(spaces[name]), 7):
                for number in (n for part in solve(exercise, spaces[name].variant(index)) for n in part.numbers):
                    for place, figure in enumerate(number.slips):
                        line, _, _ = where_it_left(number, place)
                        same_unit = number.part.working[line].unit in (None, number.part.unit)
                        value = number.working[line]
                        assert not (same_unit and value is not None and rounded(number.part, value) == figure)
                        seen += 1
        assert seen > 100


class TestTheLinesShown:
    def lines(self, case, lost):
        sitting, sources, spaces = case
        (wrong,) = feedback_sheet(sitting, 0, marked(sitting, lost), sources, spaces).wrong
        return wrong

    def test_of_a_slip_stand_up_to_the_one_that_went_wrong(self, on_openings) -> None:
        wrong = self.lines(on_openings, {WIDTH: slip(on_openings[0], *WIDTH, 1, earns=1)})
        assert [line.sign for line in wrong.lines] == [STANDS, STANDS, HERE]
        assert wrong.lines[-1].say == "Add the extra joint at the far end"
        assert wrong.lines[-1].word == "first wrong here"
        assert wrong.slips == ("The extra joint was left out: an opening has a joint at both ends.",)
        assert wrong.marks == "1 of 2 marks"

    def test_are_not_ticked_where_nothing_shows_that_they_stand(self, on_openings) -> None:
        """Bricks without joints: even the first line, one brick and its joint, cannot have been right."""
        wrong = self.lines(on_openings, {WIDTH: slip(on_openings[0], *WIDTH, 3)})
        assert [line.sign for line in wrong.lines] == [PLAIN, HERE]
        assert wrong.lines[-1].word == "wrong here at the latest"

    def test_of_a_family_go_to_the_earliest_that_its_slips_give(self, on_openings) -> None:
        wrong = self.lines(on_openings, {WIDTH: slip(on_openings[0], *WIDTH, 1, 2, how="family")})
        assert len(wrong.lines) == 2
        assert len(wrong.slips) == 2
        assert not wrong.repeated

    @pytest.mark.parametrize(("how", "word"), [
        ("unit", "all but the unit stands"), ("rounding", "all but the rounding stands"),
        ("tens", "the digits stand; look at the point"), ("swapped", "look at the digits as written"),
    ])  # fmt: skip
    def test_of_a_figure_that_was_nearly_right_stand_up_to_the_last(self, on_openings, how, word) -> None:
        wrong = self.lines(on_openings, {WIDTH: other(how, 1)})
        assert [line.sign for line in wrong.lines] == [STANDS, STANDS, HERE]
        assert wrong.lines[-1].word == word

    def test_of_a_figure_that_nobody_knows_are_the_whole_working_without_signs(self, on_openings) -> None:
        wrong = self.lines(on_openings, {WIDTH: other("unknown")})
        assert [line.sign for line in wrong.lines] == [PLAIN] * 3
        assert "See your working with your tutor." in wrong.says[0]

    @pytest.mark.parametrize("how", ["blank", "unreached", "elsewhere", "withheld"])
    def test_of_a_part_still_to_be_started_is_its_first(self, on_openings, how) -> None:
        wrong = self.lines(on_openings, {WIDTH: other(how, written="")})
        assert [(line.say, line.figure) for line in wrong.lines] == [("One brick and its joint", "225 mm")]
        assert wrong.written == ""

    def test_of_one_line_alone_leave_its_figure_to_be_found(self, on_openings) -> None:
        wrong = self.lines(on_openings, {("wall-between-two-wings", "pier_length"): other("blank", written="")})
        assert [line.figure for line in wrong.lines] == [""]
        assert wrong.ask == "The pier between the windows"

    def test_go_by_the_assessors_mark_where_there_is_one(self, on_openings) -> None:
        wrong = self.lines(on_openings, {WIDTH: other("decided", 1, comment="Joints\x00 first,\u202e then\nadd.")})
        assert [line.sign for line in wrong.lines] == [STANDS, STANDS, HERE]
        assert wrong.comment == "Joints first, then add."

    def test_of_an_order_go_to_the_first_step_that_stands_too_early(self, on_sequences) -> None:
        name = ("before-the-first-brick", "morning_order")
        _, issued = parts_of(on_sequences[0])[name]
        right = issued.answer.split(",")
        swapped = [right[0], right[2], right[1], *right[3:]]  # loaded out before what the assessment asks for is on
        wrong = self.lines(on_sequences, {name: other("partly", 1, written="".join(swapped))})
        assert [line.sign for line in wrong.lines] == [STANDS, HERE]
        assert wrong.lines[0].say == f"{right[0]}: Read the drawing and the risk assessment"
        assert (
            wrong.lines[1].word == f"too early here: {right[1]}, Put on what the assessment asks for, comes before it"
        )

    def test_of_an_order_name_what_was_left_out(self, on_sequences) -> None:
        name = ("before-the-first-brick", "morning_order")
        right = parts_of(on_sequences[0])[name][1].answer.split(",")
        wrong = self.lines(on_sequences, {name: other("partly", 1, written=" ".join(right[:-1]))})
        assert [line.word for line in wrong.lines if line.sign == HERE] == ["left out"]

    def test_of_a_choice_say_why_the_ticked_one_does_not_fit(self, on_sequences) -> None:
        name = ("panel-in-a-surround", "why_dry")
        _, issued = parts_of(on_sequences[0])[name]
        letters = {index: "ABCDEFGH"[place] for place, index in enumerate(issued.shown)}
        named = (NamedSlip(key="panel-in-a-surround/why_dry/choice-2", says="Dry means without mortar"),)
        wrong = self.lines(on_sequences, {name: replace(other("slip", written=letters[1]), slips=named)})
        assert f"{letters[1]}: To let the bricks dry" in {line.say for line in wrong.lines if line.sign == HERE}
        assert any("Dry means without mortar" in line.word for line in wrong.lines)
        assert any(line.word == "this one fits" and line.say.startswith(issued.answer) for line in wrong.lines)

    def test_of_several_choices_tell_what_is_missing_from_what_does_not_fit(self, on_openings) -> None:
        sitting = on_openings[0]
        name = next(n for n, (_, p) in parts_of(sitting).items() if p.kind == "choice" and "," in p.answer)
        right = parts_of(sitting)[name][1].answer.split(",")
        too_many = next(letter for letter in "ABCD" if letter not in right)
        wrong = self.lines(on_openings, {name: other("partly", 0, written=right[0] + too_many)})
        signs = {line.say[0]: line.sign for line in wrong.lines if line.say[1:2] == ":"}
        assert signs == {right[0]: STANDS, too_many: HERE, **dict.fromkeys(right[1:], HERE)}

    def test_of_a_drawing_are_its_points(self, on_sequences) -> None:
        wrong = self.lines(on_sequences, {("panel-in-a-surround", "sketch_plan"): other("partly", 2, written="yny")})
        assert [line.sign for line in wrong.lines] == [STANDS, HERE, STANDS]
        assert wrong.lines[1].say == "The uprights and the panel rise by turns"
        assert wrong.written == ""  # the cell holds the assessor's ticks
        assert wrong.squares


class TestWhatIsTold:
    def test_not_more_than_three_exercises_and_the_earliest_part_of_each(self, on_openings) -> None:
        sitting, sources, spaces = on_openings
        lost = {name: other("unknown") for name, (_, part) in parts_of(sitting).items() if part.kind == "number"}
        del lost[WIDTH]
        lost[WIDTH] = other("carried", marks=parts_of(sitting)[WIDTH][1].marks)  # right from an earlier figure
        lost["german-format", next(n for e, n in lost if e == "german-format")] = other("tens", 1)
        wrong = feedback_sheet(sitting, 0, marked(sitting, lost), sources, spaces).wrong
        first_lost = {}
        for name, (_, part) in parts_of(sitting).items():
            if name in lost and name != WIDTH:
                first_lost.setdefault(name[0], part.label)
        assert len(wrong) == 3
        assert {w.label for w in wrong} <= set(first_lost.values())
        assert first_lost["german-format"] in {w.label for w in wrong}  # nearly right tells more than unknown

    def test_a_blank_gives_way_to_a_slip(self, on_openings) -> None:
        sitting, sources, spaces = on_openings
        blanks = {name: other("blank", written="") for name, (_, p) in parts_of(sitting).items() if p.kind == "number"}
        lost = {**blanks, WIDTH: slip(sitting, *WIDTH, 1, earns=1)}
        sheet = feedback_sheet(sitting, 0, marked(sitting, lost), sources, spaces)
        label = parts_of(sitting)[WIDTH][1].label
        assert label in {w.label for w in sheet.wrong}
        assert sheet.fresh
        assert sheet.fresh.lead == f"Of the same kind as {label}, with other numbers."

    def test_a_slip_that_repeats_is_counted_and_told_first(self, on_openings) -> None:
        sitting, sources, spaces = on_openings
        again = ("fault-in-a-set-out", "right_width")  # the same words in another exercise
        lost = {WIDTH: slip(sitting, *WIDTH, 1, earns=1), again: slip(sitting, *again, 1)}
        wrong = feedback_sheet(sitting, 0, marked(sitting, lost), sources, spaces).wrong
        assert {w.repeated for w in wrong} == {"This has come 2 times: go through it with your tutor."}

    def test_a_slip_of_earlier_papers_counts_and_a_single_one_is_no_misconception(self, on_openings) -> None:
        sitting, sources, spaces = on_openings
        paper = marked(sitting, {WIDTH: slip(sitting, *WIDTH, 2)})
        before = (NamedSlip(key="opening-for-a-panel/opening_width/2", says="as it was worded then"),) * 2
        (once,) = feedback_sheet(sitting, 0, paper, sources, spaces).wrong
        (thrice,) = feedback_sheet(sitting, 0, paper, sources, spaces, earlier=before).wrong
        assert (once.repeated, thrice.repeated[:21]) == ("", "This has come 3 times")

    def test_every_part_has_its_mark_and_what_is_secure_is_told_in_the_words_of_the_question(self, on_openings) -> None:
        sitting, sources, spaces = on_openings
        sheet = feedback_sheet(sitting, 0, marked(sitting, {WIDTH: other("unknown")}), sources, spaces)
        labels = [f"{one.number}{part.label}" for one in sheet.marks for part in one.parts]
        assert labels == [part.label for part in sitting.papers[0].parts]
        own = next(one for one in sheet.marks if any(part.sign == "?" for part in one.parts))
        assert own.topic == "Opening sizes"
        assert own.secure.startswith("How high must it be, from the top of the")
        assert [(part.marks, part.sign) for part in own.parts][:2] == [("0/2", "?"), ("2/2", "✓")]
        assert all(len(one.secure) <= 60 for one in sheet.marks)

    def test_an_exercise_with_nothing_right_has_nothing_secure(self, on_openings) -> None:
        sitting, sources, spaces = on_openings
        lost = dict.fromkeys(parts_of(sitting), other("blank"))
        sheet = feedback_sheet(sitting, 0, marked(sitting, lost), sources, spaces)
        assert {one.secure for one in sheet.marks} == {""}
        assert {part.sign for one in sheet.marks for part in one.parts} == {"►"}
        assert sheet.total.startswith("0 ")

    def test_a_figure_carried_on_says_so_beside_its_mark(self, on_openings) -> None:
        sitting, sources, spaces = on_openings
        sheet = feedback_sheet(sitting, 0, marked(sitting, {WIDTH: other("carried", 2)}), sources, spaces)
        assert "2/2 carried on" in {part.marks for one in sheet.marks for part in one.parts}

    def test_every_part_that_lost_marks_has_a_line_with_what_was_written_the_slip_and_where_to_look(
        self, on_openings
    ) -> None:
        sitting, sources, spaces = on_openings
        height = ("opening-for-a-panel", "opening_height")
        lost = {WIDTH: slip(sitting, *WIDTH, 1, earns=1), height: other("blank", written="")}
        one, other_one = feedback_sheet(sitting, 0, marked(sitting, lost), sources, spaces).lost
        assert (one.label, one.marks) == (parts_of(sitting)[WIDTH][1].label, "1 of 2")
        assert one.written == parts_of(sitting)[WIDTH][1].slips[0][0]
        assert one.says == "The extra joint was left out: an opening has a joint at both ends."
        assert one.look == "Add the extra joint at the far end"
        assert (one.blank, other_one.blank) == (False, True)
        assert other_one.look == "One course is a brick and its bed"

    def test_a_figure_that_nobody_knows_has_no_line_to_look_at(self, on_openings) -> None:
        sitting, sources, spaces = on_openings
        (one,) = feedback_sheet(sitting, 0, marked(sitting, {WIDTH: other("unknown")}), sources, spaces).lost
        assert one.look == ""
        assert one.says == "This figure is not one of the usual slips. See your working with your tutor."

    @pytest.mark.parametrize(("many", "named"), [(11, True), (12, True), (13, False)])
    def test_many_open_parts_are_counted_and_not_named(self, on_openings, many: int, named: bool) -> None:
        sitting, sources, spaces = on_openings
        lost = dict.fromkeys(list(parts_of(sitting))[:many], other("blank"))
        (note,) = feedback_sheet(sitting, 0, marked(sitting, lost), sources, spaces).notes
        assert (f"the {many} marked ► or ? below" in note) is not named

    def test_who_marked_it_is_told_as_far_as_it_can_be_printed(self, on_openings) -> None:
        sitting, sources, spaces = on_openings
        told = "Marked by J.\x00 Marsh, 12 January 2026."
        sheet = feedback_sheet(sitting, 0, marked(sitting), sources, spaces, marked_by=told)
        assert sheet.marked_by == "Marked by J. Marsh, 12 January 2026."

    def test_open_parts_are_named_and_a_resubmission_says_so(self, on_openings) -> None:
        sitting, sources, spaces = on_openings
        label = parts_of(sitting)[WIDTH][1].label
        notes = {
            status: feedback_sheet(
                sitting, 0, marked(sitting, {WIDTH: other("unknown")}, status), sources, spaces
            ).notes[1]
            for status in ("", "resubmitted")
        }
        assert notes[""].startswith(f"If this paper is handed in again, these parts are open: {label}.")
        assert notes["resubmitted"].endswith(f"Still open: {label}.")
        none_left = feedback_sheet(sitting, 0, marked(sitting, {}, "resubmitted"), sources, spaces)
        assert none_left.notes == ("Handed in again: no part is open any more.",)

    def test_a_part_that_could_not_be_read_is_left_to_the_assessor(self, on_openings) -> None:
        sitting, sources, spaces = on_openings
        sheet = feedback_sheet(sitting, 0, marked(sitting, {WIDTH: other("asked")}), sources, spaces)
        assert sheet.wrong == ()
        assert sheet.notes[0].startswith("Still to be settled with your assessor")
        assert sheet.total.endswith(" so far")

    @pytest.mark.parametrize("how", ["unknown", "withheld", "tens", "swapped", "elsewhere"])
    def test_a_total_is_provisional_while_an_assessor_is_still_to_look(self, on_openings, how) -> None:
        sitting, sources, spaces = on_openings
        sheet = feedback_sheet(sitting, 0, marked(sitting, {WIDTH: other(how)}), sources, spaces)
        assert sheet.total.endswith(" so far")
        assert sheet.notes[0].startswith("Provisional until your assessor has looked at the working: ")

    def test_a_part_that_is_decided_again_leaves_the_total_open(self, on_openings) -> None:
        sitting, sources, spaces = on_openings
        sheet = feedback_sheet(sitting, 0, marked(sitting, {}), sources, spaces, asked_again=("1a",))
        assert sheet.total.endswith(" so far")
        assert sheet.notes[0] == "Your assessor decides again, since the answer is another now: 1a."

    def test_what_changed_since_the_sheet_was_handed_back_stands_first(self, on_openings) -> None:
        sitting, sources, spaces = on_openings
        says = "Changed since this was handed back: 1a has 2 of 2 marks now, 1 before (19 January 2026). Method shown."
        sheet = feedback_sheet(sitting, 0, marked(sitting, {WIDTH: other("slip")}), sources, spaces, changed=(says,))
        assert sheet.notes[0] == says
        assert not sheet.total.endswith(" so far")

    @pytest.mark.parametrize("how", ["right", "carried", "route", "slip", "rounding", "unit", "blank", "decided"])
    def test_a_total_is_final_where_nothing_waits(self, on_openings, how) -> None:
        sitting, sources, spaces = on_openings
        sheet = feedback_sheet(sitting, 0, marked(sitting, {WIDTH: other(how)}), sources, spaces)
        assert not sheet.total.endswith(" so far")

    def test_every_comment_of_the_assessor_stands_somewhere(self, on_openings) -> None:
        sitting, sources, spaces = on_openings
        full = other("right", marks=2, written="x", comment="Set out so that each step can be followed.")
        sheet = feedback_sheet(sitting, 0, marked(sitting, {WIDTH: full}), sources, spaces)
        label = parts_of(sitting)[WIDTH][1].label
        assert sheet.comments == ((label, "Set out so that each step can be followed."),)

    @pytest.mark.parametrize("how", [how for how in get_args(How) if how not in ("right", "asked")])
    def test_is_about_the_task_and_never_about_the_person(self, on_sequences, how) -> None:
        sitting, sources, spaces = on_sequences
        lost = {
            name: (slip(sitting, *name, 1, how=how) if how in ("slip", "family") and part.slips else other(how))
            for name, (_, part) in parts_of(sitting).items()
        }
        sheet = feedback_sheet(sitting, 0, marked(sitting, lost), sources, spaces)
        assert sheet.wrong
        told = " ".join(words for w in sheet.wrong for words in (*w.says, w.lead, *(line.word for line in w.lines)))
        said = told.lower()
        for banned in ("you are", "well done", "good", "better", "best", "average", "careless", "clever", "sorry",
                       "other learners", "rank", "easy", "should have"):  # fmt: skip
            assert banned not in said


@pytest.mark.parametrize("change", [{"code": "XXXX-XXXX-X"}, {"marks": ()}])
def test_marks_that_are_not_this_papers_are_refused(on_openings, change) -> None:
    sitting, sources, spaces = on_openings
    with pytest.raises(NoMarks):
        feedback_sheet(sitting, 0, replace(marked(sitting), **change), sources, spaces)


def test_text_from_outside_is_shortened_and_loses_what_cannot_be_seen() -> None:
    assert fit_to_print("=1+1\x07\t\ud800 910", 60) == "=1+1 910"
    assert fit_to_print("x" * 70, 60) == "x" * 60 + " …"
