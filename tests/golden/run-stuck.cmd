run dial-four --fault switch-lf:stuck-closed@1s --do '5s knob-rf=light' --until 80s
