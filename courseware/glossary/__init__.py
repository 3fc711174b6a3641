"""The trade's words with a drawing each, and a card of its rules: a YAML file in, words, pictures and rules out."""
