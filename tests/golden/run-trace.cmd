run dial-four --do '0s oven.mode=bake' --until 60s --trace igniter-bake.current,burner-bake.flame --every 10s
