words one 'two words' "it's" '' a'b c'd=5 ''
