"""One learner taken out for good: of the record, of the sittings' folders, of every file that the program wrote."""
