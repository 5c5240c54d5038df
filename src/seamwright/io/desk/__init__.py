"""Plan texts as the desk makes and changes them: from a form, a list, a model, or line by line."""
