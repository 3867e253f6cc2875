"""Plain language on the desk: claims judged, drafts proofread, questions answered."""
