# 500 ml of 2:1 by volume: 386.667 g and 158.333 g, in steps of 0.1 g; running totals 386.7, + 10.9, + 158.4
card card.yaml
