"""What plans say of one another: one yard's kilns, spots, stickers and piles, of whichever texts.

Of each checked plan only a little is kept (``stands``), so that thousands can be seen together. ``blocks`` finds out
which sites and kilns of several texts are one, ``named`` tells those of one name apart, ``stay`` and ``presence`` say
from when to when each stack stands; ``bookings``, ``takings``, ``limits`` with ``loads``, and ``namesakes`` work out
the facts, ``judging`` has the rules judge them.
"""
