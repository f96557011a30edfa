help why
