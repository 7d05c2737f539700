oil --oil 'mineral oil'
