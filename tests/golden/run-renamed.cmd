run dial-four --fault valve-bake:stuck-shut --until 1s
