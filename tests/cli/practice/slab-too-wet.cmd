damp --size '900 x 304.8 x 40 mm' --wood 'white oak' --moisture '14 %' --destination-humidity '23.5 %' --destination-temperature '22 C'
