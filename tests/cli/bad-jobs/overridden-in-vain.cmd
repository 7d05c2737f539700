# an option over the file is told as the option
size overridden-in-vain.yaml --scale '1 oz' --crown '20 mm'
