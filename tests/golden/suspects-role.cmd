suspects dial-four --seen no-glow --role boss
exit 2
