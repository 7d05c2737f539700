upkeep --size '600 x 180 x 27 mm' --use 'open air' --delivered 2026-12-12
