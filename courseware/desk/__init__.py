"""The desk in the browser: pages on this machine alone, for all that the commands do, by the same workflows.

The only room that knows Starlette and uvicorn. `app` puts the pages together, `guard` stands before them.
"""
