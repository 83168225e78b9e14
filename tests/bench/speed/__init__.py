"""Speed and size on one page, each figure beside another way: ``python -m tests.bench.speed``."""
