lst
exit 2
