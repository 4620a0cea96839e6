"""Forms made from the build file's own schema and the glossary."""
