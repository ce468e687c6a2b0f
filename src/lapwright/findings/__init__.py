"""What is wrong: one kind of fault to a file, each with evidence, size and doubt."""
