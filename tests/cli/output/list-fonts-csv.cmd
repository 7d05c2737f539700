list fonts --format csv
