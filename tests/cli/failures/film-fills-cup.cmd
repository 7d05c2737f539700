# a mix so thick that a narrow cup gives nothing back
size --measured '5 ml' --resin 'laminating 100:13' --cup '5 mm' --drain '1 s'
