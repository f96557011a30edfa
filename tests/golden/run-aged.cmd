run dial-four --fault igniter-bake:aged --do '0s oven.mode=bake' --until 3min --csv
