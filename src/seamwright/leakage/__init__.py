"""How tight the shell is: fan tests analysed. This room knows no shapes, only numbers."""
