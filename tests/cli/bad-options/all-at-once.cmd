# every problem is told in one go
size --outline 'cirle 30 mm' --cutter v-61 --scale '1 oz' --ratio 2:1 --count 0 --wood pyne --temperature 20 --crown '20 mm'
