# no option may be cut short, as a later one could begin alike
size --outline "circle 30 mm" --cut v-60
