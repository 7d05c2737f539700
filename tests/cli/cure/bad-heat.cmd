cure --temperature '25 C' --hottest '20 C' --mass '0 g'
