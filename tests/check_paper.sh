#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Has what is drawn, and HTML, read by programs that have nothing in common with what made them: HTML
# is valid for tidy, PDFs are checked by qpdf, and their text, as poppler finds it, holds every figure of the JSON; SVGs are
# well-formed for libxml2 and drawn anew by librsvg; PNGs are as large as the paper. Ends with the
# line "N passed, N failed".
set -u
BUILD=${BUILD:-build}
runnel=${RUNNEL_COMMAND:-$BUILD/runnel}
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
passed=0 failed=0

check() {
    what=$1
    shift
    if "$@" >"$work/log" 2>&1; then
        passed=$((passed + 1))
    else
        failed=$((failed + 1))
        echo "$what"
        head -n 5 "$work/log"
    fi
}

run() {
    # shellcheck disable=SC2086 # the wrapper is a list of words
    ${RUNNEL_WRAPPER:-} "$runnel" "$@"
}

# JSON TEXT: every weight, volume and time that a card needs, as it is shown.
holds_figures() {
    "${PYTHON:-/usr/bin/python3}" - "$1" "$2" <<'PYTHON'
import json, sys

card, text = json.load(open(sys.argv[1])), open(sys.argv[2]).read().replace('\u00a0', ' ')
text = ' '.join(text.split())
lacking = []


def need(value, decimals, unit):
    wanted = f'{value:.{decimals}f} {unit}'
    if wanted not in text:
        lacking.append(wanted)


decimals = len(f'{card["scale"]["step_g"]:g}'.partition('.')[2])
for batch in card['batches']:
    need(batch['total_g'], decimals, 'g')
    need(batch['weighed_ml'], 1, 'ml')
    for cup in batch['cups'] if len(batch['cups']) > 1 else [batch]:
        tinted = cup['part_a_g'] + cup['tint_g']
        for mass in (cup['part_a_g'], cup['part_b_g'], tinted, tinted + cup['part_b_g']):
            need(mass, decimals, 'g')
        for volume in (cup['part_a_ml'], cup['part_b_ml'], cup['weighed_ml']):
            need(volume, 1, 'ml')
    if batch['top_up_ml']:
        need(batch['top_up_ml'], 1, 'ml')
for warning in card['warnings']:
    if ' '.join(warning['text'].split()) not in text:
        lacking.append(warning['text'])
print('\n'.join(lacking))
sys.exit(bool(lacking))
PYTHON
}

# FILE WIDTH HEIGHT: a PNG of that many dots.
has_size() {
    size=$(od -An -tu1 -j16 -N8 "$1" | awk '{ print $1 * 16777216 + $2 * 65536 + $3 * 256 + $4,
        $5 * 16777216 + $6 * 65536 + $7 * 256 + $8 }')
    [ "$size" = "$2 $3" ] || { echo "$size"; return 1; }
}

# JSON TEXT: every date of the first weeks, every amount and cautions of a care note.
holds_care() {
    "${PYTHON:-/usr/bin/python3}" - "$1" "$2" <<'PYTHON'
import datetime, json, sys

# poppler parts words where letters are set closely, so blanks do not count
care, text = json.load(open(sys.argv[1])), ''.join(open(sys.argv[2]).read().split())
wanted = []
for piece in care['pieces']:
    for task in piece['tasks']:
        day = datetime.date.fromisoformat(task['first'])
        wanted.append(f'{day:%A}, {day.day} {day:%B %Y}')
        if task['amount_ml']:
            wanted.append(f'{max(1, round(task["amount_ml"]))} ml')
    for key in ('first_year_ml', 'year_ml'):
        if piece[key] < 1000:
            wanted.append(f'{round(piece[key])} ml in ')
lacking = [words for words in wanted if ''.join(words.split()) not in text]
print('\n'.join(lacking))
sys.exit(bool(lacking) or len(wanted) < 4)
PYTHON
}

for example in ash-tray house-sign mill-bakery; do
    set -- upkeep "share/examples/$example.yaml" --delivered 2027-01-18
    run "$@" --format json >"$work/care.json"
    run "$@" -o "$work/care.html" || : >"$work/care.html"
    check "$example: HTML" tidy -q -e "$work/care.html"
    check "$example: HTML as XML" xmllint --noout "$work/care.html"
    check "$example: HTML from nowhere else" sh -c "! grep -q 'src=\|href=\|url(\|<script' '$work/care.html'"
    sed 's/<[^>]*>/ /g; s/&amp;/\&/g' "$work/care.html" >"$work/care.txt"
    check "$example: figures of the HTML" holds_care "$work/care.json" "$work/care.txt"
    for paper in a4 4x6; do
        run "$@" --paper $paper -o "$work/care.pdf" || : >"$work/care.pdf"
        check "$example on $paper: qpdf" qpdf --check "$work/care.pdf"
        pdftotext -raw "$work/care.pdf" "$work/care.txt" 2>/dev/null || : >"$work/care.txt"
        check "$example on $paper: figures" holds_care "$work/care.json" "$work/care.txt"
    done
done
for example in house-sign walnut-badge place-blocks mill-bakery; do
    job=share/examples/$example.yaml
    run card "$job" --format json >"$work/card.json"
    for paper in a4 letter a5 4x6; do
        name=$work/$example-$paper
        run card "$job" --paper $paper --written 2026-11-25 -o "$name.pdf" || : >"$name.pdf"
        check "$example on $paper: qpdf" qpdf --check "$name.pdf"
        pdftotext -raw "$name.pdf" "$name.txt" 2>/dev/null || : >"$name.txt"
        check "$example on $paper: figures" holds_figures "$work/card.json" "$name.txt"
    done
    run card "$job" -o "$work/card.svg"
    check "$example: well-formed SVG" xmllint --noout "$work/card.svg"
    check "$example: SVG drawn anew" rsvg-convert -o "$work/anew.png" "$work/card.svg"
    run card "$job" -o "$work/again.svg"
    check "$example: the same bytes" cmp "$work/card.svg" "$work/again.svg"
done
run card --measured '20 ml' --resin 'coating 2:1' --temperature '25 C' -o "$work/one.png"
# 210 x 297 mm at 150 dots an inch are 1240.2 x 1753.9 dots, rounded up
check "a PNG of A4" has_size "$work/one.png" 1241 1754
TZ=UTC pdfinfo -isodates "$work/house-sign-a4.pdf" >"$work/info"
check "the day of the PDF" grep -q '^CreationDate: *2026-11-25T00:00:00Z' "$work/info"
check "its title" grep -q '^Title: *Mixing card: house sign' "$work/info"
echo "$passed passed, $failed failed"
[ "$failed" -eq 0 ]
