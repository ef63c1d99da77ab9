"""Benchmarks: ratios measured in one run. Run ``python -m tests.benchmarks`` for the table."""
