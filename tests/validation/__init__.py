"""Results of the package held against figures from outside the project, one file per source."""
