damp --size '400 x 200 x 25 mm' --wood 'hard maple' --humidity '50 %' --format json
