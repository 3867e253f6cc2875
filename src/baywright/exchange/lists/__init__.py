"""Lists of parts in files: read row by row, and written as text tables and as workbooks."""
