run dial-four --csv --do '0s oven.mode=bake' --setting 'receptacle.volts=108 V@2min' --fault igniter-bake:open@3min..4min --until 5min
