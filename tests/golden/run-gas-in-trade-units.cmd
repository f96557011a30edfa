run board-five --do '0s knob-lf=light' --do '4s knob-lf=high' --do '0s oven.mode=convection' --until 10s --units trade --trace burner-lf.gas,cavity.vent,element.power --every 5s
