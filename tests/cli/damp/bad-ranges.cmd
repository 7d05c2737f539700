damp --size '400 x 304.8 x 25 mm' --moisture '60 %' --destination-humidity '120 %' --destination-temperature '90 C' --humidity '50 %'
