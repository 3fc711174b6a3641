"""The record: sittings, scripts, marks and decisions kept for years; nothing is overwritten."""
