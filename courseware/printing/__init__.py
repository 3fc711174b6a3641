"""Papers and keys in, tagged PDFs out. The only room that knows WeasyPrint.

A learner's paper and a tutor's key have templates of their own; the learner's is never given a key.
"""
