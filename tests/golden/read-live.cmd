read dial-four --csv --test 'ohms igniter-bake.a igniter-bake.b @ 0s oven.mode=bake; 9s'
exit 1
