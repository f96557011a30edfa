run dial-four --fault connector:leaks=1 --do '600s match=burner-lf' --until 700s
exit 1
