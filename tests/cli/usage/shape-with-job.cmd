size job.yaml --cutter v-60
