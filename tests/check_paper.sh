#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Has what is drawn, and HTML, read by programs that have nothing in common with what made them: HTML
# is valid for tidy, PDFs are checked by qpdf, and their text, as poppler finds it, holds every figure
# of the JSON; SVGs, also those within HTML, are well-formed for libxml2 and drawn anew by librsvg;
# PNGs are as large as the paper. Ends with the line "N passed, N failed".
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
        for mass in (cup['part_a_g'], cup['part_b_g'], tinted,
                     cup['part_b_g'] + (0 if cup['zero_before_b'] else tinted)):
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

# JSON TEXT COMMAND: every figure of the JSON that its page tells, each worked out anew from the JSON. With
# blanks left out, as poppler parts words where letters are set closely.
holds_all() {
    "${PYTHON:-/usr/bin/python3}" - "$@" <<'PYTHON'
import datetime, json, sys

is_card = sys.argv[3] == 'card'
page = json.load(open(sys.argv[1]))
text = ''.join(open(sys.argv[2]).read().split())
wanted = []


def need(value, decimals, unit):
    if value is not None:
        wanted.append(f'{value:.{decimals}f}{unit}')


def days(jobs):
    for job in jobs:
        whose = job['job'].replace(' ', '') + ':' if len(jobs) > 1 else ''
        for step in job['steps']:
            start, end = (datetime.datetime.fromisoformat(step[key]) for key in ('start', 'end'))
            words = ''.join(step['text'].split())
            wanted.append(f'{start:%A},{start.day}{start:%B%Y}')
            wanted.append(f'{start:%H:%M}-{end:%H:%M}{whose}{words}')
        for key in ('wrap', 'ships'):
            when = datetime.datetime.fromisoformat(job[key])
            wanted.append(f'{when:%A},{when.day}{when:%B%Y},{when:%H:%M}')


decimals = len(f'{page["scale"]["step_g"]:g}'.partition('.')[2]) if 'scale' in page else 1
for cavity in [] if is_card else page.get('cavities', []):
    small = 'narrowest_mm' in cavity and cavity['volume_ml'] < 0.1
    need(cavity['volume_ml'], 4 if small else 2, 'ml')
    need(cavity['deepest_mm'] or None, 2, 'mm')
    need(cavity.get('narrowest_mm') or None, 2, 'mm')
    wanted.append(''.join(cavity['name'].split()))
    for key in ('volume_ml', 'likely_ml', 'high_ml') if sys.argv[3] == 'size' else ():
        need(cavity[key], 3, 'ml')
    for key in ('footprint_mm2', 'wall_mm2') if sys.argv[3] == 'size' else ():
        need(cavity[key] / 100, 2, 'cm2')
    for key in ('per_tenth_mm_deeper_ml', 'per_degree_ml') if cavity.get('widest_mm') else ():
        need(cavity[key] or None, 3, 'ml')
    for key in ('narrowest_mm', 'widest_mm') if cavity.get('widest_mm') else ():
        need(cavity[key], 2, 'mm')
    for layer in cavity.get('layers', []):
        need(layer['volume_ml'], 3, 'ml')
        need(layer['top_mm'], 2, 'mmdeep')
terms = ('cavity_ml', 'crown_ml', 'shrinkage_ml', 'soak_ml', 'cup_loss_ml', 'reserve_ml',
         'allowance_ml', 'total_ml', 'surplus_ml', 'high_ml', 'part_a_ml', 'part_b_ml')
for batch in page.get('batches', []):
    for key in ('part_a_g', 'part_b_g', 'tint_g') if not is_card or not batch['cups'][1:] else ():
        need(batch[key] or None, decimals, 'g')
    need(batch['weighed_ml'], 2 if sys.argv[3] == 'size' else 1, 'ml')
    for key in terms if sys.argv[3] == 'size' else ():
        need(batch[key], 2, 'ml')
    for cup in batch['cups'] if is_card else []:
        tinted = cup['part_a_g'] + cup['tint_g']
        for mass in (cup['part_a_g'], cup['part_b_g'], tinted,
                     cup['part_b_g'] + (0 if cup['zero_before_b'] else tinted)):
            need(mass, decimals, 'g')
for required in page.get('needs', []):
    need(required['mass_g'], decimals, 'g')
    need(required['volume_ml'], 1, 'ml')
if page.get('seal'):
    need(page['seal']['total']['coat_ml'], 1, 'ml')
    need(page['seal']['total']['all_ml'], 1, 'ml')
if page.get('level'):
    need(page['level']['crown']['cut_mm'], 2, 'mm')
    need(page['level']['crown']['sanded_mm'], 2, 'mm')
if page.get('coating'):
    need(page['coating']['coats_ml'], 1, 'ml')
if page.get('oil'):
    need(page['oil']['total']['all_ml'], 1, 'ml')
    need(page['oil']['total']['first_coat_ml'], 1, 'ml')
if page.get('timeline'):
    days(page['timeline']['jobs'])
if 'jobs' in page:
    days(page['jobs'])
if 'heat' in page:
    for part in ('cup', 'layer'):
        need(page['heat'][part]['peak_degc'], 0, '\u00b0C')
    need(page['damp']['dew_degc'], 1, '\u00b0C')
    need(page['damp']['moisture_percent'], 1, '%')
    for moment in page['moments']:
        wanted.append(moment['name'].replace(' ', ''))
for caution in page.get('cautions', []) + page.get('warnings', []):
    wanted.append(''.join(caution['text'].split()))
lacking = [words for words in wanted if words not in text]
print('\n'.join(lacking))
sys.exit(bool(lacking) or len(wanted) < 8)
PYTHON
}

# HTML: each picture in it is well-formed, drawn anew by another library, and told in words.
pictures_hold() {
    grep -o 'base64,[^"]*' "$1" | cut -d , -f 2 >"$work/pictures"
    [ "$(grep -c '<img alt="[^"]' "$1")" = "$(wc -l <"$work/pictures")" ] || return 1
    [ -s "$work/pictures" ] || return 1
    while read -r picture; do
        echo "$picture" | base64 -d >"$work/picture.svg" || return 1
        xmllint --noout "$work/picture.svg" || return 1
        rsvg-convert -o "$work/picture.png" "$work/picture.svg" || return 1
    done <"$work/pictures"
}

# FILE: nothing of a page comes from elsewhere: no address but that of its own pictures, no script.
stands_alone() {
    ! sed 's/src="data:[^"]*"//g' "$1" | grep -q 'src=\|href=\|url(\|<script'
}

# NAME ARGUMENTS...: a command as PDF and as HTML against its JSON.
holds_page() {
    name=$1
    shift
    run "$@" --format json >"$work/page.json"
    for paper in a4 4x6; do
        run "$@" --paper $paper -o "$work/page.pdf" || : >"$work/page.pdf"
        check "$name on $paper: qpdf" qpdf --check "$work/page.pdf"
        pdftotext -raw "$work/page.pdf" "$work/page.txt" 2>/dev/null || : >"$work/page.txt"
        grep -v '^page [0-9]* of [0-9]*$' "$work/page.txt" >"$work/body.txt"
        check "$name on $paper: figures" holds_all "$work/page.json" "$work/body.txt" "$1"
    done
    run "$@" -o "$work/page.svg" || : >"$work/page.svg"
    check "$name: well-formed SVG" xmllint --noout --huge "$work/page.svg"
    check "$name: SVG drawn anew" rsvg-convert -o "$work/anew.png" "$work/page.svg"
    run "$@" -o "$work/page.html" || : >"$work/page.html"
    check "$name: HTML" tidy -q -e "$work/page.html"
    check "$name: HTML as XML" xmllint --noout --huge "$work/page.html"
    check "$name: HTML from nowhere else" stands_alone "$work/page.html"
    check "$name: its pictures" pictures_hold "$work/page.html"
    sed 's/<img[^>]*>//g; s/<[^>]*>/ /g; s/&amp;/\&/g; s/&quot;/"/g; s/&lt;/</g; s/&gt;/>/g' \
        "$work/page.html" >"$work/page.txt"
    check "$name: figures of the HTML" holds_all "$work/page.json" "$work/page.txt" "$1"
    run "$@" -o "$work/again.html"
    check "$name: the same bytes" cmp "$work/page.html" "$work/again.html"
}

for example in house-sign walnut-badge mill-bakery; do
    for command in size card sheet; do
        holds_page "$command of $example" $command "share/examples/$example.yaml"
    done
done
holds_page "timeline" timeline share/examples/house-sign.yaml
holds_page "timeline of two jobs" timeline tests/cli/timeline/several.d/first.yaml \
    tests/cli/timeline/several.d/second.yaml
holds_page "cure" cure --temperature '18 C' --humidity '70 %'
for example in ash-tray house-sign mill-bakery; do
    set -- upkeep "share/examples/$example.yaml" --delivered 2027-01-18
    run "$@" --format json >"$work/care.json"
    run "$@" -o "$work/care.html" || : >"$work/care.html"
    check "$example: HTML" tidy -q -e "$work/care.html"
    check "$example: HTML as XML" xmllint --noout "$work/care.html"
    check "$example: HTML from nowhere else" stands_alone "$work/care.html"
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
done
run card --measured '20 ml' --resin 'coating 2:1' --temperature '25 C' -o "$work/one.png"
# 210 x 297 mm at 150 dots an inch are 1240.2 x 1753.9 dots, rounded up
check "a PNG of A4" has_size "$work/one.png" 1241 1754
TZ=UTC pdfinfo -isodates "$work/house-sign-a4.pdf" >"$work/info"
check "the day of the PDF" grep -q '^CreationDate: *2026-11-25T00:00:00Z' "$work/info"
check "its title" grep -q '^Title: *Mixing card: house sign' "$work/info"
echo "$passed passed, $failed failed"
[ "$failed" -eq 0 ]
