list fonts --format json
