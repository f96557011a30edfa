list symptoms
