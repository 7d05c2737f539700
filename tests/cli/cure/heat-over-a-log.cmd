cure --log - --format json
