"""A learner's marked paper in; what is said to that learner about it, as finished text, out."""
