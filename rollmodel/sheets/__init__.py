"""Car sheets: TOML text with units to a :class:`rollmodel.car.Car` and back.

``read(path)`` and ``read_text(text)`` give a car or raise :class:`SheetError` with every fault;
``from_values(tables)`` does the same for tables already in hand, as a form has them.
A value may say how well it is known, ``"470 mm ± 20 mm"``; ``read_uncertainties(path)`` gives that.
``read_remarks(path)`` says in which family of units it is typed, and what was read into it.
``to_sheet(car, family)`` and ``write(tables, path)`` go the other way. ``training_cars()`` lists the
college's cars.
"""

from rollmodel.sheets.build import from_values, uncertainties
from rollmodel.sheets.faults import SheetError
from rollmodel.sheets.files import read, read_remarks, read_text, read_uncertainties, write
from rollmodel.sheets.text import to_sheet, to_text, to_values
from rollmodel.sheets.training import training_car, training_cars

__all__ = ["SheetError", "from_values", "read", "read_remarks", "read_text", "read_uncertainties", "to_sheet",
           "to_text", "to_values", "training_car", "training_cars", "uncertainties", "write"]
