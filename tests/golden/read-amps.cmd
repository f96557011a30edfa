read dial-four --test 'amps igniter-bake @ 0s oven.mode=bake; 90s' --test 'volts valve-bake.a valve-bake.b @ 0s oven.mode=bake; 90s'
