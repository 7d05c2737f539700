list woods --format json
