"""From the build file's sections to the arrays of the plant."""
