damp --size '400 x 304.8 x 25 mm' --wood 'white oka'
