help crad
