size --help
