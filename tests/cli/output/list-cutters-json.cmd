list cutters --format json
