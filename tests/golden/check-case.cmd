check wrong-case.xml
exit 1
