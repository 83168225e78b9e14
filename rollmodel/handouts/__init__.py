"""Lessons on paper and on the projector: one handout and one file of slides for each, complete in themselves.

A lesson is run in a process of its own, its pictures are taken in both looks, and what it shows is put into
pages that load nothing, ask nothing of the outside, and hold no answer. Begin with
:func:`rollmodel.handouts.making.lesson_pages`.
"""
