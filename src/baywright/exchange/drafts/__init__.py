"""Drafts: texts, pages, captions, documents and slides, read with the place of each sentence."""
