size tray.yaml --format json
