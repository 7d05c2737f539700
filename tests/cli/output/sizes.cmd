# 9666.667 mm3: prismatoid 5 (60 40 + 4 55 35 + 50 30)/6
size --outline 'rectangle 60 x 40 mm' --cutter 'v 90 deg' --wood 'hard maple' --depth-limit '5 mm'
