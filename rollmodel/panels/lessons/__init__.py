"""What each lesson shows: its panels, and its sentences with computed numbers. One module a lesson."""
