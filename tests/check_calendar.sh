#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Has calendars of the command read by a parser that has nothing in common with the library that
# writes them (python3-icalendar), counts their dates out, and compares them with the dates and times
# in the JSON of the same job. Ends with the line "N passed, N failed".
set -u
BUILD=${BUILD:-build}
runnel=${RUNNEL_COMMAND:-$BUILD/runnel}
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

python=
for candidate in /usr/bin/python3 python3; do
    [ -n "$python" ] || ! "$candidate" -c 'import icalendar' 2>/dev/null || python=$candidate
done
if [ -z "$python" ]; then
    echo "no python3 with icalendar is there"
    echo "0 passed, 1 failed"
    exit 1
fi

# COMMAND NAME OPTION...: the same as calendar and as JSON.
make_both() {
    command=$1 name=$2
    shift 2
    for format in json ics; do
        # shellcheck disable=SC2086 # the wrapper is a list of words
        ${RUNNEL_WRAPPER:-} "$runnel" "$command" "$@" --format $format -o "$work/$name.$format" ||
            : >"$work/$name.broken"
    done
}
board='450 x 300 x 38 mm'
make_both upkeep weekly --size "$board" --delivered 2027-12-18 --use weekly
make_both upkeep wet --size "$board" --delivered 2024-02-27 --use wet --water 'soaks in'
make_both upkeep tung --size "$board" --delivered 2023-12-31 --use daily --oil 'tung oil'
make_both upkeep sign --size "$board" --delivered 2026-08-31 --use 'open air' \
    --job 'Zum grünen Baum; Bäcker, Mühle \ 麦と塩の店 und noch ein sehr langer Name, über 75 Oktette'
make_both upkeep oiled --size "$board" --delivered 2026-01-03 --use rare --oiled 2028-02-29
examples=share/examples
set -- "$examples/walnut-badge.yaml" "$examples/ash-tray.yaml" --days-off '2026-12-24 to 2027-01-02'
make_both timeline early "$@" --start 2026-12-16
make_both timeline later "$@" --start 2026-12-17 --revision 1
make_both timeline night "$examples/place-blocks.yaml" --start 2026-03-27 --hours 'Mon-Sun 0:00-24:00' \
    --zone Europe/Berlin --oil 'tung oil'
# Orders that are alike but for one thing, and one order planned anew.
sign='pieces: [{name: sign, size: 300 x 200 x 20 mm, cavities: [{measured: 5 ml, footprint: 4 cm2, name: %s}]}]'
days='days: {start: 2026-11-25}'
mkdir "$work/elsewhere"
order() {
    # shellcheck disable=SC2059 # the piece is a format
    printf "%s\n$sign\n$days\n" "$2" "$3" >"$work/$1.yaml"
}
order plain 'job: Holm' one
order other-customer 'job: Holm
customer: Anna' one
order other-carving 'job: Holm' two
order other-id 'job: Holm
id: 2026-031' one
order same-id 'job: Holm and Son
id: 2026-031' two
cp "$work/plain.yaml" "$work/elsewhere/copy.yaml"
for which in plain other-customer other-carving other-id same-id; do
    make_both timeline "order-$which" "$work/$which.yaml"
    make_both upkeep "care-$which" "$work/$which.yaml" --delivered 2027-01-05 --use daily
done
make_both timeline order-anew "$work/elsewhere/copy.yaml" --start 2027-01-11 --temperature '24 C'
make_both upkeep care-anew "$work/elsewhere/copy.yaml" --delivered 2027-02-05 --use daily
make_both timeline order-finer "$work/plain.yaml" --grits '80, 120, 180, 240, 320, 400'
make_both timeline order-beside "$work/other-carving.yaml" "$work/plain.yaml"
make_both timeline order-twice "$work/plain.yaml" "$work/elsewhere/copy.yaml"

"$python" - "$work" <<'PYTHON'
import datetime, json, os, sys

import icalendar

work, passed, failed = sys.argv[1], 0, 0


def check(is_right, what):
    global passed, failed
    passed, failed = passed + bool(is_right), failed + (not is_right)
    if not is_right:
        print(what)


def dates_of(event, end):
    """All days of an event before `end`, by its rule; counted here."""
    rule = event.get('RRULE', {})
    day = event['DTSTART'].dt
    step = datetime.timedelta(rule.get('INTERVAL', [1])[0] *
                              {'DAILY': 1, 'WEEKLY': 7}[rule.get('FREQ', ['DAILY'])[0]])
    left = rule.get('COUNT', [10 ** 6])[0] if rule else 1
    while left and day < end:
        yield day
        day, left = day + step, left - 1


def check_file(name):
    raw = open(f'{work}/{name}.ics', 'rb').read()
    lines = raw.split(b'\r\n')
    check(lines[-1] == b'' and not any(b'\n' in line or b'\r' in line for line in lines),
          f'{name}: lines do not end with CRLF')
    check(max(map(len, lines)) <= 75, f'{name}: a line is longer than 75 octets')
    calendar = icalendar.Calendar.from_ical(raw)
    made = json.load(open(f'{work}/{name}.json'))
    piece = made['pieces'][0]
    events = calendar.walk('VEVENT')
    check(len(events) == len(piece['tasks']), f'{name}: {len(events)} events')
    check(len({str(event['UID']) for event in events}) == len(events), f'{name}: UIDs are not apart')
    check(not any(event.errors for event in events), f'{name}: errors')
    check(str(calendar['VERSION']) == '2.0' and 'PRODID' in calendar, f'{name}: head')
    check(all(event['DTEND'].dt - event['DTSTART'].dt == datetime.timedelta(1) for event in events),
          f'{name}: an event is not of one day')
    start = datetime.date.fromisoformat(made['upkeep']['oiled'] or made['upkeep']['delivered'])
    found = sorted(str(day) for event in events
                   for day in dates_of(event, start + datetime.timedelta(731)))
    check(found == sorted(date['date'] for date in piece['dates']), f'{name}: dates differ')
    check(len(found) > 2, f'{name}: hardly any dates')
    check(made['job'] is None or str(calendar['X-WR-CALNAME']) == made['job'],
          f'{name}: {calendar["X-WR-CALNAME"]!r} is not {made["job"]!r}')


def check_days(name):
    calendar = icalendar.Calendar.from_ical(open(f'{work}/{name}.ics', 'rb').read())
    jobs = json.load(open(f'{work}/{name}.json'))['jobs']
    events = calendar.walk('VEVENT')
    check(not any(event.errors for event in events), f'{name}: errors')
    check(len({str(event['UID']) for event in events}) == len(events), f'{name}: UIDs are not apart')
    wanted = [(step['start'], step['end'], f'{job["job"]}: {step["text"]}')
              for job in jobs for step in job['steps']]
    for job in jobs:
        for key, what in (('ships', 'to ship'), ('food', 'for food')):
            if job[key]:
                day = datetime.date.fromisoformat(job[key][:10])
                wanted.append((str(day), str(day + datetime.timedelta(1)),
                               f'{job["job"]}: ready {what}'))
    found = []
    for event in events:
        times = [event[key].dt for key in ('DTSTART', 'DTEND')]
        check(not any(getattr(time, 'tzinfo', None) for time in times), f'{name}: a zone')
        found.append(tuple(time.isoformat()[:16] for time in times) + (str(event['SUMMARY']),))
    check(sorted(found) == sorted(wanted), f'{name}: events differ')
    check(len(found) > 15, f'{name}: hardly any events')
    return {str(event['UID']) for event in events}


def check_again(first, second):
    """What is planned anew has the UIDs of before and a later SEQUENCE."""
    check(check_days(first) == check_days(second), f'{second}: other UIDs than {first}')
    later = icalendar.Calendar.from_ical(open(f'{work}/{second}.ics', 'rb').read())
    check({event['SEQUENCE'] for event in later.walk('VEVENT')} == {1}, f'{second}: SEQUENCE')


def uids_of(name):
    calendar = icalendar.Calendar.from_ical(open(f'{work}/{name}.ics', 'rb').read())
    uids = [str(event['UID']) for event in calendar.walk('VEVENT')]
    check(len(set(uids)) == len(uids) > 1, f'{name}: UIDs are not apart')
    return set(uids)


def check_orders(kind):
    """Orders keep apart, and each stays what it is."""
    plain, by_id = uids_of(f'{kind}-plain'), uids_of(f'{kind}-other-id')
    for name in ('other-customer', 'other-carving', 'other-id'):
        check(not plain & uids_of(f'{kind}-{name}'), f'{kind}-{name}: UIDs of another order')
    check(uids_of(f'{kind}-anew') == plain, f'{kind}-anew: other UIDs than before')
    check(uids_of(f'{kind}-same-id') == by_id, f'{kind}-same-id: other UIDs than before')


check_orders('order')
check_orders('care')
plain = uids_of('order-plain')
check(plain < uids_of('order-finer'), 'one more grit moves the UIDs of other steps')
check(uids_of('order-beside') == plain | uids_of('order-other-carving'), 'order-beside: other UIDs')
check(plain < uids_of('order-twice') and len(uids_of('order-twice')) == 2 * len(plain),
      'order-twice: not all are there')
for name in ('early', 'later', 'night'):
    check(not os.path.exists(f'{work}/{name}.broken'), f'{name}: not written')
check_again('early', 'later')
check_days('night')
for name in ('weekly', 'wet', 'tung', 'sign', 'oiled'):
    if os.path.exists(f'{work}/{name}.broken'):
        check(False, f'{name}: not written')
    else:
        check_file(name)
print(f'{passed} passed, {failed} failed')
sys.exit(failed > 0)
PYTHON
