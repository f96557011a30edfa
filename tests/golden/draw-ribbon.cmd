draw dial-four --sheet ribbon --at 0s -o x.svg
exit 2
