check torn.xml findings.xml
exit 2
