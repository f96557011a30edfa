list hazards
