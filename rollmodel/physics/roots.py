"""Roots of many equations at once, by scipy, whose solvers load when one is first needed: they take long."""


def find_root(function, bracket, **options):
    """Roots inside brackets, by element: `scipy.optimize.elementwise.find_root` (Chandrupatla's method).

    Parameters
    ----------
    function : callable
        ``function(x, *args)``, elementwise.
    bracket : pair of array
        Between which the sign changes, in the units of ``x``.
    **options
        ``args`` and ``tolerances``, handed on.

    Returns
    -------
    object
        With ``x`` and ``success``, arrays of the brackets' shape; no success where the sign does not change.

    Examples
    --------
    >>> found = find_root(lambda x, square: x * x - square, ([1.0, 1.0], [3.0, 3.0]), args=([4.0, 25.0],))
    >>> print(found.x[0].round(9), found.success)
    2.0 [ True False]
    """
    from scipy.optimize import elementwise

    return elementwise.find_root(function, bracket, **options)
