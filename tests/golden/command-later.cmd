suspects dial-four --seen no-glow
exit 2
