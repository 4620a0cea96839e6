"""What the server answers, one kind of page a file; routes translate, nothing else."""
