suspects unknown-seen.xml
exit 1
