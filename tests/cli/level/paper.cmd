level --outline 'rectangle 60 x 40 mm' --cutter 'v 90 deg' --crown '0.5 mm' --zero-on 'paper 2' --take-off '0 mm' --format json
