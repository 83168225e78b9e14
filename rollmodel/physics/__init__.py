"""The equations: plain SI floats and arrays in and out. Imports numpy, scipy and the car records only.

Signs and axes follow ISO 8855: x forward, y left, z up, roll about x. Lateral acceleration,
roll angle and load transfer are given as magnitudes of one corner; a mirrored corner has the
mirrored answer.
"""
