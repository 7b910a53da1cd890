// Removed once this plugin has its first source.
