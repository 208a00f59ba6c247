"""A yard month by month: what stands where, when each stack is ready, what is late and what it waits for.

``frame`` are the months that are looked at, ``lateness`` judges one stack by the day it is wanted, ``waiting`` says
what it waits for, ``places`` how spots and kilns are used, ``rooms`` how full sites are; ``gathered`` puts them
together from what is kept of checked plans.
"""
