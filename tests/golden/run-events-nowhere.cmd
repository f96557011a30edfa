run small.xml --until 1s --events no-such-folder/events.csv
exit 2
