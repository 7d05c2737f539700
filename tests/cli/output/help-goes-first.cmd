# what is wrong is told even beside a call for help
size --help --cutter
