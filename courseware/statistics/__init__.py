"""Figures from marks: facility, discrimination, reliability, agreement, each with its interval. Pure."""
