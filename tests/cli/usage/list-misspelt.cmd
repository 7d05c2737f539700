list resin
