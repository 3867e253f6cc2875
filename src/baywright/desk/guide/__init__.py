"""The platform guide: written by queries, proven, checked for numbers typed by hand."""
