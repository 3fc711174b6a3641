"""A course over its weeks: its scheme of work, and how far a class has come from its start to its end."""
