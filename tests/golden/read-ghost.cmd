read dial-four --fault cord:ground-open --fault house:pipe-not-grounded --test 'volts chassis.body house.earth'
