say "$(cat files.yaml)" "$(cat table.csv)" "$(ls | wc -l)"
