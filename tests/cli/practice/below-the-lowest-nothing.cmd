cure --resin 'laminating 4:1' --temperature '12 C'
