help
