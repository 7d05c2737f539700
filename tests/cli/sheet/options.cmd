sheet --outline 'rectangle 60 x 40 mm' --cutter 'v 90 deg' --depth-limit '5 mm' --size '300 x 200 x 40 mm' --oil 'mineral oil' --sealed --coats 3 --zero-on 'tape 2'
