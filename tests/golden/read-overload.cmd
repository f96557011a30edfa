read dial-four --csv --fault igniter-bake:open --test 'ohms igniter-bake.a igniter-bake.b @ 0s cord.plug=out; 1s'
