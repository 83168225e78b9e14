"""A class of simulated learners on a JupyterHub of this machine: see DEVELOPERS.md."""
