help suspects
