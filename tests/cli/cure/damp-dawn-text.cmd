cure --log - --board '13 C'
