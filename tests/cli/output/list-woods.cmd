# shrinkage of sugar maple: Wood Handbook FPL-GTR-190 (2010) Table 4-3
list woods
