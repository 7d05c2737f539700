size control-character.yaml
