# 11088 mm3: prismatoid 6 (2400 + 4 54 34 + 48 28)/6
size --outline 'rectangle 60 x 40 mm' --cutter 'v 90 deg' --wood 'hard maple' --depth-limit '6 mm'
