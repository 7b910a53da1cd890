// Removed once this stage has its first source.
