write made
