run dial-four --fault receptacle:bootleg-ground --fault receptacle:reversed --until 1min
