"""A class's marked papers in; the class picture, as finished text and as a workbook, out."""
