read small.xml --test 'look light @ 1s'
exit 1
