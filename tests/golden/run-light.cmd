run dial-four --procedure light-knob-lf
