# every problem is told in one go, in the order of the file
size many-errors.yaml
