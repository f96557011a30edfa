run dial-four --setting receptacle.volts=1,5 --until 5s
exit 2
