list fonts
