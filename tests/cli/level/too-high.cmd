level --outline 'rectangle 60 x 40 mm' --cutter 'v 90 deg' --crown '0.3 mm' --zero-on '0.3 mm'
