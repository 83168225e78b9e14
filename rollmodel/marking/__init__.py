"""Marking a class: answer files in, marks, roads and a class report out; and the pack that a class is given.

Answer files are read as text and never run. Each key is worked out again from the code word, so no key
is kept anywhere. Nothing in the class's folder is changed, and one bad file spoils no other.

:func:`rollmodel.marking.run.mark_class` does the whole of it; :func:`rollmodel.marking.pack.make_pack`
makes what the class gets.
"""
