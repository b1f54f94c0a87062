"""Programs for Node and Python in Pyodide that make the memory snapshot; run by make_snapshot.py, never imported."""
