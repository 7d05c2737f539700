size -
