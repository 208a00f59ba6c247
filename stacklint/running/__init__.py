"""Many plans checked at once: on all cores, with what was found before taken from where it is kept.

``job`` is one plan to be checked and what comes of it, ``cache`` keeps that by the content of all that it depends on,
``dated`` tells whether the day is among it, ``program`` what the program itself is, ``run`` has jobs done in parallel
and hands on what comes of them in their order, ``since`` finds out what a change can affect.
"""
