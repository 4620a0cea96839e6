"""Views of results on paper and screen."""
