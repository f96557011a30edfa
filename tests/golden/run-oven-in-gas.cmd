run dial-four --fault valve-bake:stuck-open --do '600s lever=closed' --do '600s oven.mode=bake' --until 640s
