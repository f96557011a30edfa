suspects dial-four --reading "amps igniter-bake"
exit 2
