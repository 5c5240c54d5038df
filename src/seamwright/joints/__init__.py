"""Where panels meet: find, classify, cut sections, join at nodes, close the line."""
