list oils --format json
