"""Tables in and out: CSV and XLSX as they come, read row by row with every fault told; workbooks written safely."""
