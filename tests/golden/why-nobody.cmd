why dial-four --do '0s oven.mode=bake' --do '0s cord.plug=out' --symptom no-glow
exit 1
