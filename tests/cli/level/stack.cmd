level --outline 'rectangle 60 x 40 mm' --cutter 'v 90 deg' --crown '0.5 mm' --zero-on 'tape 2, 10 measure 1.3 mm' --format json
