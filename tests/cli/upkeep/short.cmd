upkeep short.yaml --delivered 2026-12-19 --format json
