cure --temperature '25 C' --hottest '20 C'
