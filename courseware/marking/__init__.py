"""What comes back from learners: for now, the sheet that an assessor fills in."""
