upkeep --size '450 x 300 x 38 mm' --delivered 2027-12-18 --use rare --data . --format json
