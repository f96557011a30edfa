help run list
exit 2
