damp --size '400 x 304.8 x 25 mm' --wood 'white oak' --moisture '14 %' --destination-humidity '23.5 %' --destination-temperature '22 C' --format json
