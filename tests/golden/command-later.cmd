why dial-four --symptom no-glow
exit 2
