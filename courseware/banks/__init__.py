"""YAML in, checked exercises out: formulas, the space of variants, and the proofs.

A bank comes from anyone, so it is read with every fault told at once, and nothing in it can read a file, run long or
import. Every variant of an exercise is proved before one is issued.
"""

from courseware.banks.exercise import Bank, Exercise, SafetyNotes
from courseware.banks.own_drawing import files_named, with_drawings
from courseware.banks.proof import Failure, Proof, prove
from courseware.banks.read import holds_safety_notes, read_bank, read_safety_notes
from courseware.banks.solve import solve
from courseware.banks.space import Space, raw_size
from courseware.text_files.faults import BankFaulty, Fault, FileFaulty, harmless

__all__ = [
    "Bank",
    "BankFaulty",
    "Exercise",
    "Failure",
    "Fault",
    "FileFaulty",
    "Proof",
    "SafetyNotes",
    "Space",
    "files_named",
    "harmless",
    "holds_safety_notes",
    "prove",
    "raw_size",
    "read_bank",
    "read_safety_notes",
    "solve",
    "with_drawings",
]
