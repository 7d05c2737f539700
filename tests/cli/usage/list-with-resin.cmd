list woods --resin "table-top 2:1"
