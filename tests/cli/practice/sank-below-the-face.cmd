level --outline 'rectangle 200 x 20 mm' --cutter 'v 90 deg' --resin 'table-top 2:1' --format json
