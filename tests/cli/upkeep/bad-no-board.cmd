upkeep --delivered 2027-12-18
