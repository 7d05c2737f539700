json
