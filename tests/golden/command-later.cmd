explain dial-four -o out.pdf
exit 2
