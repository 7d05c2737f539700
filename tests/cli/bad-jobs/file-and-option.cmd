# problems of file and options come together
size file-and-option.yaml --ratio 2:1
