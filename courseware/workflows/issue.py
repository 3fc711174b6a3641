"""Papers issued: from banks, like another sitting, again as a retake, by level, or as worksheets on a job."""

from __future__ import annotations

import secrets
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from courseware import __version__
from courseware.banks import Bank, SafetyNotes
from courseware.course.scheme import Lesson
from courseware.files.bank_files import NotFound, find_banks, read_banks, read_file, shipped_notes
from courseware.files.sitting_folders import read_folder, sitting_folder
from courseware.jobs.task import Task
from courseware.papers.class_list import ClassList, read_class_list
from courseware.papers.deal import Choosing, Chosen, Heads, blueprint, choose, deal_sitting, shared_variants
from courseware.papers.group import Group, numbered
from courseware.papers.shares import for_papers
from courseware.papers.sheet_format import STANDARD, SheetFormat, beside
from courseware.papers.sitting import Sitting
from courseware.papers.sitting_checks import LONGEST_TITLE
from courseware.papers.titles import title_of, week_title
from courseware.papers.unused_variants import VariantsHad
from courseware.printing.engine import cuts_fonts_fast
from courseware.printing.glyph_coverage import unprintable_names
from courseware.printing.versions import versions
from courseware.settings.settings import Settings
from courseware.workflows import issuing
from courseware.workflows.approval import keep_sheet, must_be_approved, write_for_approval
from courseware.workflows.jobs import worksheet
from courseware.workflows.proving import proved
from courseware.workflows.register import take_in
from courseware.workflows.retaking import (
    banks_of,
    had_before,
    had_in_folder,
    had_in_group,
    learners_of,
    worksheet_on_a_job,
)
from courseware.workflows.scheme import exercises_of
from courseware.workflows.watch import Watch

SHORT = 6  # exercises of a diagnostic paper, unless told otherwise


@dataclass(frozen=True, slots=True, kw_only=True)
class IssueOptions:
    """What may be asked of a sitting beside banks and group; `seed` is one that was typed."""

    out: Path
    settings: Settings
    processes: int
    title: str | None = None
    seed: str | None = None
    level: int | None = None
    exercises: int | None = None
    picked: tuple[str, ...] = ()
    for_approval: bool = False  # dealt for an assurer to look through, and not printed yet
    due: str = ""  # ISO 8601: when papers are to be handed in
    approved_by: str = ""
    by: str = ""  # who issues
    record: str | None = None  # the record's file or URL, None for the one in the output folder
    word: bool = False  # editable copies beside the sheets
    sheets: SheetFormat = STANDARD  # of every learner whose list says no other


@dataclass(frozen=True, slots=True, kw_only=True)
class Issued:
    """A sitting's folder, how many papers are in it, whether a stopped run was gone on with.

    `arris_rule` is '' where none of its banks goes by one.
    """

    folder: Path
    papers: int
    resumed: bool
    arris_rule: str
    printed: bool = True  # False: dealt for approval


def group_of(file: Path | None, learners: int, name: str | None, watch: Watch) -> Group:
    """The group of a class list, told of its doubts, or one of so many numbered papers."""
    if file is None:
        return numbered(learners)
    return Group(name=name or group_name(file), learners=_read_list(file, watch).learners)


def groups_by_level(file: Path, name: str | None, watch: Watch) -> dict[int, Group]:
    """The group of a class list in parts, by its column `Level`; levels that nobody has are left out."""
    found = _read_list(file, watch, levels=True)
    return {
        level: Group(
            name=f"{name or group_name(file)}, level {level}",
            learners=tuple(who for who, own in zip(found.learners, found.levels, strict=True) if own == level),
        )
        for level in sorted(set(found.levels))
    }


def group_name(file: Path) -> str:
    """The name of a group from its class list's file: `group-a.csv` gives `Group a`."""
    words = file.stem.replace("-", " ").replace("_", " ")
    return words[:1].upper() + words[1:]


def issue_sitting(named: Sequence[str], group: Group, date: str, options: IssueOptions, watch: Watch) -> Issued:
    """Chooses from the banks named, then proves, deals and prints."""
    banks, notes = read_banks(find_banks(named), options.settings)
    if options.seed:
        watch.note("a seed that was typed can be guessed; for a formal assessment leave --seed out.")
    choosing = Choosing(level=options.level, exercises=options.exercises, picked=options.picked)
    seed = options.seed or secrets.token_hex(32)
    chosen = choose(banks, choosing, seed)  # by the secret seed too: nobody can know the questions in advance
    topics = [bank.topic for bank in banks if any(own is bank for own, _ in chosen)]
    heads = Heads(title=options.title or title_of(topics), date=date, group=group, seed=seed, version=__version__)
    asked = [[bank.sha256 for bank in banks], options.level, options.exercises, options.picked]
    return _prove_and_print(heads, banks, notes, chosen, options, watch, asked=asked)


def issue_by_level(
    named: Sequence[str], groups: Mapping[int, Group], date: str, options: IssueOptions, watch: Watch
) -> Iterator[Issued]:
    """A sitting for each level of a mixed group; refused whole where the banks hold too little of a level."""
    banks, _ = read_banks(find_banks(named), options.settings)
    for level in groups:
        choose(banks, Choosing(level=level, exercises=options.exercises), "any")
    for level, group in groups.items():
        yield issue_sitting(named, group, date, replace(options, level=level, seed=_of_level(options, level)), watch)


def issue_diagnostic(
    named: Sequence[str], group: Group, date: str, options: IssueOptions, watch: Watch
) -> Iterator[Issued]:
    """A short sitting for each level that the banks have, of the same exercises whenever it is asked.

    So the end of a course can be set beside its start. Nobody gets a variant that they had in a sitting in the folder.
    """
    banks, notes = read_banks(find_banks(named), options.settings)
    had = had_in_folder(group.learners, options.out)
    for level in sorted({exercise.level for bank in banks for exercise in bank.exercises}):
        chosen = blueprint(banks, level, options.exercises or SHORT)
        each = tuple(bank for bank in banks if any(own is bank for own, _ in chosen))
        topics = options.title or title_of([bank.topic for bank in each])
        heads = Heads(
            title=f"Diagnostic, level {level}: {topics}"[:LONGEST_TITLE], date=date, group=group,
            seed=_of_level(options, level) or secrets.token_hex(32), version=__version__,
        )  # fmt: skip
        yield _prove_and_print(
            heads, each, notes, chosen, options, watch, asked=["diagnostic", _names(chosen)], had=had
        )


def issue_week(lessons: Sequence[Lesson], group: Group, date: str, options: IssueOptions, watch: Watch) -> Issued:
    """Issues what a scheme of work has in a week: of each topic so many exercises of its level, rising in level."""
    seed = options.seed or secrets.token_hex(32)
    chosen, notes = exercises_of(lessons, options.settings, seed)
    rising = tuple(one for _, one in chosen)
    each = tuple({bank.topic: bank for bank, _ in rising}.values())
    heads = Heads(
        title=options.title or week_title(lessons[0].week, [bank.topic for bank in each]),
        date=date,
        group=group,
        seed=seed,
        version=__version__,
    )
    return _prove_and_print(heads, each, notes, rising, options, watch, asked=_names(rising))


def issue_like(named: str, group: Group, date: str, options: IssueOptions, watch: Watch) -> Issued:
    """Issues the exercises of another sitting to this group, from the banks that its file holds, dealt again.

    Whoever stood in that sitting, or in one beside it, gets no variant that they had.
    """
    like = sitting_folder(named)
    sitting = _today(like.sitting, options.settings)
    if worksheet_on_a_job(sitting):
        raise NotFound("the figures of these worksheets are a job's; make them with `courseware job`, for any group")
    banks, notes, chosen = banks_of(sitting)
    heads = Heads(
        title=options.title or sitting.title, date=date, group=group, seed=options.seed or secrets.token_hex(32),
        version=__version__,
    )  # fmt: skip
    had = had_in_group(group.learners, like, options.out)
    return _prove_and_print(heads, banks, notes, chosen, options, watch, asked=_names(chosen), had=had)


def retake(named: str, learners: Sequence[str], date: str, options: IssueOptions, watch: Watch) -> Issued:
    """Issues the exercises of a sitting again to its learners, or some of them: variants that they have not had."""
    first = sitting_folder(named)
    sitting = _today(first.sitting, options.settings)
    banks, notes, chosen = banks_of(sitting)
    papers = learners_of(sitting, learners)
    heads = Heads(
        title=options.title or f"Retake: {sitting.title}"[:LONGEST_TITLE],
        date=date,
        group=Group(name=sitting.group, learners=tuple(paper.learner for paper in papers)),
        seed=options.seed or secrets.token_hex(32),
        version=__version__,
        retake_of=sitting.code,
    )
    had = had_before(papers, first, options.out)
    return _prove_and_print(heads, banks, notes, chosen, options, watch, asked=_names(chosen), had=had)


def issue_worksheet(task: Task, group: Group, date: str, options: IssueOptions, watch: Watch) -> Issued:
    """A sitting whose givens are those of the job, the same for every learner."""
    bank, exercises = worksheet(task)
    heads = Heads(
        title=f"Worksheet: {task.shape.job}"[:LONGEST_TITLE], date=date, group=group, seed=secrets.token_hex(32),
        version=__version__,
    )  # fmt: skip
    chosen = tuple((bank, exercise) for exercise in exercises)
    return _prove_and_print(
        heads, (bank,), shipped_notes(), chosen, options, watch, asked=_names(chosen), one_for_each=False
    )


def _read_list(file: Path, watch: Watch, *, levels: bool = False) -> ClassList:
    found = read_class_list(read_file(file), file.name, levels=levels)
    for note in found.notes:
        watch.note(note)
    return found


def _today(sitting: Sitting, settings: Settings) -> Sitting:
    """A sitting as it is issued again: by the rules of then, which its answers go by, on sheets as printed today."""
    return replace(sitting, settings=settings.by_the_rules_of(sitting.settings))


def _of_level(options: IssueOptions, level: int) -> str | None:
    """A seed that was typed, made a level's own: two sittings of one seed and banks would have the same codes."""
    return f"{options.seed}, level {level}" if options.seed else None


def _names(chosen: Sequence[Chosen]) -> list[list[str]]:
    """The exercises of a request that names them, with their givens: a worksheet's are narrowed to the job's own."""
    return [
        [bank.sha256, exercise.name, *(f"{given.name}: {given.values}" for given in exercise.givens)]
        for bank, exercise in chosen
    ]


def _prove_and_print(
    heads: Heads,
    banks: tuple[Bank, ...],
    notes: SafetyNotes | None,
    chosen: tuple[Chosen, ...],
    options: IssueOptions,
    watch: Watch,
    *,
    asked: object,
    had: Sequence[VariantsHad] = (),
    one_for_each: bool = True,
) -> Issued:
    """What every sitting goes through: nothing is issued that fails its proof, and every doubt is told.

    `one_for_each`: whether variants that must be shared are worth telling.
    """
    if not options.for_approval:
        must_be_approved(options.settings, options.approved_by)
    proofs = proved(chosen, options.processes, "is not issued", watch)
    spaces = [for_papers(proof.space) for proof in proofs]
    learners = tuple(replace(who, sheets=beside(who.sheets, options.sheets)) for who in heads.group.learners)
    group = replace(heads.group, learners=learners)
    heads = replace(heads, group=group, due=options.due, approved_by=options.approved_by)
    for name, size in shared_variants(spaces, len(learners)) if one_for_each else ():
        watch.note(f"{name} has {size} variants for {len(learners)} learners; some are shared.")
    arris_rule = banks[0].settings.arris_rule if any("arris_rule" in bank.text for bank in banks) else ""
    if options.for_approval:
        dealt = replace(deal_sitting(heads, banks, notes, chosen, spaces, had), made_with=versions())
        folder = write_for_approval(
            dealt, options.settings, options.out, watch, word=options.word, record=options.record
        )
        return Issued(folder=folder, papers=len(learners), resumed=False, arris_rule=arris_rule, printed=False)
    with watch.progress("Printing", issuing.sheets_each(options.word) * len(learners)) as tell:
        folder, resumed = issuing.issue(
            heads, banks, notes, chosen, spaces, options.out, options.processes, tell, watch.waiting,
            typed_seed=options.seed, asked=asked, had=had, word=options.word,
        )  # fmt: skip
    if not cuts_fonts_fast():
        watch.note("with the library libharfbuzz-subset0 installed, printing is twice as fast.")
    for note in unprintable_names(learners):
        watch.note(note)
    keep_issued(folder, options, watch)
    return Issued(folder=folder, papers=len(learners), resumed=resumed, arris_rule=arris_rule)


def keep_issued(folder: Path, options: IssueOptions, watch: Watch) -> None:
    """Keeps the assurer's sheet of a sitting that was approved, and enters every one into the register."""
    if options.approved_by:
        keep_sheet(folder, read_folder(folder).sitting, options.settings)
    take_in(folder, watch, by=options.by, record=options.record)
