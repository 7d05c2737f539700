say nothing
