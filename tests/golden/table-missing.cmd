table no-such.xml
exit 2
