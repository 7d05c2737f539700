list resins --format json
