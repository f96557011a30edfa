read dial-four --do '0s cord.plug=out' --test 'volts chassis.body house.earth'
