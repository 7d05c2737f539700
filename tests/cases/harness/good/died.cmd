die
