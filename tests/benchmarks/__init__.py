"""How fast the equations are, beside a sensible other way. Outside the default run; see `ratios.py`."""
