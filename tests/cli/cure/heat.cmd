cure --resin 'casting 3:1' --temperature '25 C' --mass '1 kg' --cup '120 mm' --layer '60 mm'
