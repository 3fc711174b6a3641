"""The commands of each job the tool does, thin: options read, an errand called, its outcome told."""
