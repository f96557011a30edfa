check no-such.xml
exit 2
