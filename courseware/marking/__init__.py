"""Scripts as typed in; marks out, with how each was reached. Pure: nothing is read, written or printed."""
