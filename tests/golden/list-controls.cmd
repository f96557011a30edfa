list dial-four controls
