list board-five procedures
