# the letters of a font are known only when the text is set
size no-such-letters.yaml
