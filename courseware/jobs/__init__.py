"""A practical task in, all that the workshop needs of it on paper: figures, order, prompts, what is looked at.

Every figure comes from the trade core; the sheets cannot disagree, since they are made from one plan.
"""
