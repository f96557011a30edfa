run dial-four --do '0s oven.mod=bake' --until 5s
exit 1
