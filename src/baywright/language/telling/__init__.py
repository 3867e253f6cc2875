"""Facts as people tell them: sentences whose every word has a part in a fact of the book.

Order of words decides little in such sentences, so they are not cut by a grammar. Their words
become terms, and a family of statements takes the terms it knows what to do with. When a term is
left over, the family has not read the sentence.
"""
