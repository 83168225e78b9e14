"""How anti-roll bars set a car's balance in the middle of a corner, with numbers.

Importing this package imports neither matplotlib nor widgets; the parts are
imported by name when they are wanted, for example ``from rollmodel import physics``.
"""

__version__ = "0.1.0"
