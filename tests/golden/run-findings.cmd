run findings.xml --until 1s
exit 1
