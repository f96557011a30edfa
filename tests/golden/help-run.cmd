help run
