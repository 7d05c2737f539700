upkeep --size '450 x 300 x 38 mm' --delivered 2027-12-18 --use weekly --oiled 2028-02-29
