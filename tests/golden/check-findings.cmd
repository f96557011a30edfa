check findings.xml ../../diagrams/dial-four.xml
exit 1
