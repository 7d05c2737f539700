timeline first.yaml --format ics --written 2026-11-25 --revision 2
