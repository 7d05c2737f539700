size --measured '265 ml' --resin 'laminating 5:1 slow' --temperature '25 C'
