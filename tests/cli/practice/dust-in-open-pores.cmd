level --outline 'rectangle 60 x 10 mm' --cutter 'v 60 deg' --wood 'red oak'
