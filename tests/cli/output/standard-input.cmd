size - --format json
