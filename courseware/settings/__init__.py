"""The centre's settings: one file's bytes in, one frozen value out, handed down to all that goes by it."""
