oil --size '450 x 300 x 38 mm' --crown '1 mm'
