size --outline "circle 30 mm" --cuttre v-60
