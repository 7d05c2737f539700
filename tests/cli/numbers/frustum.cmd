size --outline 'circle 20 mm' --cutter 'v 53.13010235415598 deg' --depth-limit '8 mm' --format json
