why dial-four --fault igniter-bake:aged=0.9 --do '0s oven.mode=bake' --symptom glow-no-flame
