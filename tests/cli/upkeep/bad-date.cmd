upkeep --size '450 x 300 x 38 mm' --delivered 24.12.2026
