upkeep --size '450 x 300 x 38 mm' --delivered 9999-12-30
