"""Benchmarks: how long our answers take, each as a median with its spread."""
