"""A kind of part that exists in these tests alone: a mix, written as a ratio such as 1:4."""
