list dial-four faults --csv
