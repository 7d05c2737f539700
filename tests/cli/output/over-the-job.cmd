size over-the-job.yaml --resin 'table-top 2:1' --scale '0.01 g' --temperature '68 F' --job spoons --format json
