"""A part answered in a few words: on paper and in marking a drawn part with lines to write on, and so of that kind."""
