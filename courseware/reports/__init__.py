"""What a printed report is made of: blocks, tables, words for figures; no report knows here what it is about."""
