# done, and the answer is no
card --measured '20 ml' --temperature '5 C'
