# a job with a mistake leaves an older output alone
size --outline 'cirle 30 mm' --cutter v-60 -o old-output-stays.txt
