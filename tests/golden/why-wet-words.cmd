why dial-four --fault switch-lf:wet --symptom sparks-all-knobs-off
