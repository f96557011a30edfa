why lp-four --fault cavity:vent-covered --symptom headache
