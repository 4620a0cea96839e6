"""Views of results for paper and screen."""
