"""What each word of the class picture means, and how much a class of its size can bear, for a tutor."""

from __future__ import annotations

from courseware.reports.words import DASH, SMALL

MEANINGS = (
    ("got it", "About how many of the class got it: the marks that the class got, as if whole learners had got all or "
               "nothing. A part left blank or not reached counts as no marks. Absent learners are left out."),
    ("share, likely", "The same as a share, and between what figures the share would likely lie (19 times in 20) if "
                      "many such classes sat the question: Wilson's interval, an approximation for a part of more than "
                      "one mark."),
    ("tells apart", "Discrimination: the share got by the top 27\u00a0% of the class less that got by the bottom "
                    "27\u00a0%, by total mark; learners of equal totals at the cut count by their mean. From −1 to 1. "
                    "A figure below 0 means that those with the lower totals did better on it. Its interval takes the "
                    "two ends as drawn apart, a guide only (Newcombe's)."),
    ("goes with the rest", "Item-rest correlation: whether those who got this part did well on the rest of the paper. "
                           "From −1 to 1; 0 means that one tells nothing of the other. Interval by Fisher."),
    ("alpha, KR-20", "How steady the order of totals is, as far as its parts agree with each other; 1 is perfectly "
                     "steady. KR-20 is the same for a paper whose parts are all right or wrong. Parts of one exercise "
                     "hang together, which flatters it. Interval by Feldt."),
    ("SEM", "Standard error of a mark: another paper as hard as this one would move a learner's total by about so many "
            "marks, up or down. Two totals closer than that are as good as equal."),
    ("SD", "How far totals spread about their mean. All spreads here are over the whole class (divided by\u00a0n)."),
    ("n", "How many papers a figure was found in."),
    (DASH, "The figure does not exist here: too few papers, or everybody has the same mark."),
    ("look at this question", "Fewer than 3 in 10 of its marks were got, or more than a quarter of the class left it "
                              "out, or (from ten papers) it runs against the rest of the paper. The reason may be the "
                              "teaching, the time or the wording: look at it before you judge it."),
    ("low, middle, high", "The numbers on the papers differ. The answers issued are split into thirds by size, so that "
                          "you see whether some papers were harder. Papers with the same answer stay together."),
    ("counted as, what went wrong", "What slips are counted by, over all parts and papers: a few words that the bank "
                                    "gives them; where it gives none, what the slip says."),
    ("a slip, and one to teach again", "Seen on one paper it is a slip. Seen on more, it is to be taught again. "
                                       "Perhaps: the figure written is one that another slip gives too."),
)  # fmt: skip


def caution(n: int) -> str:
    """What a class of `n` papers can bear; '' where it is large."""
    if n >= SMALL:
        return ""
    return (
        f"A small class says little: n = {n}. Figures of a question swing by chance alone. In a class of 12 the figure "
        "'tells apart' has a standard deviation of 0.33, a sixth of its whole scale. Read the intervals, look at the "
        "question itself, and judge over several sittings."
    )
