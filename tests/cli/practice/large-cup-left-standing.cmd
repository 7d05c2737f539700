cure --resin 'laminating 5:1 slow' --temperature '25 C' --mass '340 g' --usable-share '100 %'
