# what comes by standard input has lines and columns too
card -
