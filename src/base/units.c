/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/units.h"

#include "base/quantity.h"

#include <math.h>
#include <string.h>

const char *runnel_dimension_text(runnel_dimension dimension) {
    return runnel_dimension_words_of(dimension)->name;
}

const char *runnel_dimension_unit(runnel_dimension dimension) {
    return runnel_dimension_words_of(dimension)->unit;
}

/* What is being read, for the messages. */
typedef struct reading {
    runnel_slice whole;
    runnel_dimension dimension;
    runnel_problems *problems;
    const runnel_place *place;
} reading;

/* "'12' has no unit; a length ends in mm, cm, m, in or ft, such as '12 mm'" */
static runnel_status refuse(const reading *input, runnel_status status, const char *what) {
    char shown[RUNNEL_SHOWN_SIZE];
    const runnel_dimension_words *words = runnel_dimension_words_of(input->dimension);
    return runnel_problems_add(
        input->problems, status, input->place, "'%s' %s; %s ends in %s, such as '%s'",
        runnel_slice_show(input->whole, shown), what, words->name, words->units, words->example);
}

static runnel_status refuse_number(const reading *input, runnel_number_fault fault) {
    char shown[RUNNEL_SHOWN_SIZE];
    const runnel_dimension_words *words = runnel_dimension_words_of(input->dimension);
    return runnel_problems_add(
        input->problems, RUNNEL_E_SYNTAX, input->place, "'%s' %s; %s is needed, such as '%s'",
        runnel_slice_show(input->whole, shown),
        input->whole.at == input->whole.end ? "is empty" : runnel_number_fault_text(fault),
        words->name, words->example);
}

static runnel_status refuse_unit(const reading *input, runnel_slice unit_text,
                                 const char *spelled) {
    char shown[RUNNEL_SHOWN_SIZE], unit_shown[RUNNEL_SHOWN_SIZE];
    const runnel_dimension_words *words = runnel_dimension_words_of(input->dimension);
    const char *near = spelled ? runnel_unit_nearest(spelled, input->dimension) : NULL;
    return runnel_problems_add(
        input->problems, RUNNEL_E_UNIT, input->place,
        "'%s' ends in '%s', which is not a known unit%s%s%s; %s ends in %s, such as '%s'",
        runnel_slice_show(input->whole, shown), runnel_slice_show(unit_text, unit_shown),
        near ? " (did you mean '" : "", near ? near : "", near ? "'?)" : "", words->name,
        words->units, words->example);
}

static runnel_status find_unit(const reading *input, runnel_slice unit_text,
                               const runnel_unit **unit) {
    char shown[RUNNEL_SHOWN_SIZE], spelled[RUNNEL_UNIT_SIZE];
    const runnel_dimension_words *words = runnel_dimension_words_of(input->dimension);
    unit_text = runnel_slice_trim(unit_text);
    if (!runnel_unit_spell(unit_text, spelled))
        return refuse_unit(input, unit_text, NULL);
    if (!*spelled)
        return refuse(input, RUNNEL_E_UNIT, "has no unit");
    const char *doubt = runnel_unit_doubt(spelled);
    if (doubt)
        return runnel_problems_add(input->problems, RUNNEL_E_UNIT, input->place,
                                   "'%s': '%s' %s; %s is needed, such as '%s'",
                                   runnel_slice_show(input->whole, shown), spelled, doubt,
                                   words->name, words->example);
    const runnel_unit *found = runnel_unit_find(spelled);
    if (!found)
        return refuse_unit(input, unit_text, spelled);
    if (found->dimension != input->dimension)
        return runnel_problems_add(
            input->problems, RUNNEL_E_UNIT, input->place,
            "'%s' is %s; %s is needed, in %s, such as '%s'", runnel_slice_show(input->whole, shown),
            runnel_dimension_text(found->dimension), words->name, words->units, words->example);
    *unit = found;
    return RUNNEL_OK;
}

runnel_status runnel_unit_read(runnel_slice whole, runnel_slice unit_text,
                               runnel_dimension dimension, runnel_problems *problems,
                               const runnel_place *place, const runnel_unit **unit) {
    reading input = {runnel_slice_trim(whole), dimension, problems, place};
    return find_unit(&input, unit_text, unit);
}

static runnel_status convert(const reading *input, const runnel_amount *amount,
                             const runnel_unit *unit, double *value) {
    double result = runnel_unit_value(unit, amount);
    bool lost = result == 0 && amount->upper.count && unit->zero == 0;
    if (!isfinite(result) || lost) {
        char shown[RUNNEL_SHOWN_SIZE];
        return runnel_problems_add(input->problems, RUNNEL_E_RANGE, input->place,
                                   "'%s' is too %s to be computed with; %s is needed, such as '%s'",
                                   runnel_slice_show(input->whole, shown), lost ? "small" : "large",
                                   runnel_dimension_text(input->dimension),
                                   runnel_dimension_words_of(input->dimension)->example);
    }
    *value = result;
    return RUNNEL_OK;
}

static bool starts_number(runnel_slice text) {
    runnel_slice_skip_blanks(&text);
    uint32_t point = runnel_slice_peek(text, NULL);
    if (point == '+' || point == '-' || point == '.' || point == 0x2212) {
        runnel_slice_step(&text);
        point = runnel_slice_peek(text, NULL);
    }
    return (point >= '0' && point <= '9') || point == '.' || (point >= 0xBC && point <= 0xBE) ||
           (point >= 0x2153 && point <= 0x215E);
}

/* The part of a text before the next number. A point right behind a letter closes a shortened
 * word, one behind a blank starts a decimal. */
static runnel_slice before_number(runnel_slice text) {
    runnel_slice part = {text.at, text.at};
    bool blank = true;
    for (; text.at < text.end; part.end = text.at) {
        uint32_t point = runnel_slice_peek(text, NULL);
        if ((point >= '0' && point <= '9') || (blank && starts_number(text)))
            break;
        blank = runnel_is_blank(point);
        runnel_slice_step(&text);
    }
    return part;
}

/* Sums such as "1 h 30 min": units that get smaller, no signs but for a single term. */
static runnel_status read_time(const reading *input, runnel_slice rest, double *value) {
    double sum = 0;
    const runnel_unit *last = NULL;
    do {
        runnel_amount amount;
        double term = 0;
        const runnel_unit *unit = NULL;
        runnel_number_fault fault = runnel_amount_read(&rest, &amount);
        if (fault)
            return refuse_number(input, fault);
        runnel_slice unit_text = before_number(rest);
        rest.at = unit_text.end;
        runnel_status status = find_unit(input, unit_text, &unit);
        if (!status && unit)
            status = convert(input, &amount, unit, &term);
        if (status || !unit)
            return status;
        bool one_of_many = last || rest.at < rest.end;
        if (one_of_many && amount.upper.negative)
            return refuse(input, RUNNEL_E_SYNTAX, "has a sign inside a sum of times");
        if (last && last->factor <= unit->factor)
            return refuse(input, RUNNEL_E_SYNTAX,
                          "adds up times without the larger unit first and each unit once");
        sum += term;
        last = unit;
    } while (rest.at < rest.end);
    if (!isfinite(sum))
        return refuse(input, RUNNEL_E_RANGE, "is too large to be computed with");
    *value = sum;
    return RUNNEL_OK;
}

runnel_status runnel_quantity_read(runnel_slice text, runnel_dimension dimension,
                                   runnel_problems *problems, const runnel_place *place,
                                   double *value) {
    reading input = {runnel_slice_trim(text), dimension, problems, place};
    if (dimension == RUNNEL_TIME)
        return read_time(&input, input.whole, value);
    runnel_slice rest = input.whole;
    runnel_amount amount;
    const runnel_unit *unit = NULL;
    runnel_number_fault fault = runnel_amount_read(&rest, &amount);
    if (fault)
        return refuse_number(&input, fault);
    runnel_status status = find_unit(&input, rest, &unit);
    return status || !unit ? status : convert(&input, &amount, unit, value);
}

runnel_status runnel_quantity_parse(const char *text, runnel_dimension dimension,
                                    runnel_problems *problems, const runnel_place *place,
                                    double *value) {
    return runnel_quantity_read(runnel_slice_of(text), dimension, problems, place, value);
}

size_t runnel_split_sizes(runnel_slice text, runnel_slice *parts) {
    size_t count = 0;
    runnel_slice part = {text.at, text.at};
    while (text.at < text.end) {
        uint32_t point = runnel_slice_peek(text, NULL);
        runnel_slice_step(&text);
        if ((point == 'x' || point == 'X' || point == 0xD7) && starts_number(text)) {
            if (count < RUNNEL_MOST_LENGTHS)
                parts[count] = part;
            count++;
            part.at = text.at;
        }
        part.end = text.at;
    }
    if (count < RUNNEL_MOST_LENGTHS)
        parts[count] = part;
    return count + 1;
}

runnel_status runnel_lengths_read(runnel_slice whole, const runnel_slice *parts, size_t count,
                                  runnel_problems *problems, const runnel_place *place,
                                  double *values) {
    reading input = {runnel_slice_trim(whole), RUNNEL_LENGTH, problems, place};
    runnel_status worst = RUNNEL_OK;
    const runnel_unit *next = NULL; /* NULL also where the unit of a part cannot be read */
    double results[RUNNEL_MOST_LENGTHS] = {0};
    for (size_t i = count; i-- > 0;) { /* backwards: a part may take the unit written after it */
        runnel_amount amount;
        runnel_slice rest = runnel_slice_trim(parts[i]);
        runnel_number_fault fault = runnel_amount_read(&rest, &amount);
        const runnel_unit *unit = next;
        runnel_status status = RUNNEL_OK;
        if (fault)
            status = refuse_number(&input, fault);
        else if (i == count - 1 || rest.at < rest.end)
            status = find_unit(&input, rest, &unit);
        next = status ? NULL : unit;
        if (next)
            status = convert(&input, &amount, unit, &results[i]);
        if (status)
            worst = status;
    }
    if (!worst)
        memcpy(values, results, count * sizeof *values);
    return worst;
}

runnel_status runnel_lengths_parse(const char *text, size_t wanted, runnel_problems *problems,
                                   const runnel_place *place, double *values) {
    static const char *const examples[] = {"12 mm", "60 x 40 mm", "300 x 200 x 25 mm"};
    runnel_slice whole = runnel_slice_trim(runnel_slice_of(text));
    runnel_slice parts[RUNNEL_MOST_LENGTHS];
    size_t count = runnel_split_sizes(whole, parts);
    if (count != wanted || wanted > RUNNEL_MOST_LENGTHS) {
        char shown[RUNNEL_SHOWN_SIZE];
        return runnel_problems_add(
            problems, RUNNEL_E_SYNTAX, place,
            "'%s' has %zu length%s where %zu %s needed, with an x between, such as '%s'",
            runnel_slice_show(whole, shown), count, count == 1 ? "" : "s", wanted,
            wanted == 1 ? "is" : "are",
            examples[wanted < 2    ? 0
                     : wanted == 2 ? 1
                                   : 2]);
    }
    return runnel_lengths_read(whole, parts, count, problems, place, values);
}

runnel_status runnel_number_parse(const char *text, runnel_problems *problems,
                                  const runnel_place *place, double *value) {
    char shown[RUNNEL_SHOWN_SIZE];
    runnel_slice whole = runnel_slice_trim(runnel_slice_of(text)), rest = whole;
    runnel_amount amount;
    runnel_number_fault fault = runnel_amount_read(&rest, &amount);
    if (fault || amount.lower != 1 || rest.at < rest.end) {
        const char *what = whole.at == whole.end ? "is empty"
                           : fault               ? runnel_number_fault_text(fault)
                           : rest.at < rest.end  ? "has more than a number; no unit is wanted"
                                                 : "is a fraction; a decimal number is wanted";
        return runnel_problems_add(problems, RUNNEL_E_SYNTAX, place,
                                   "'%s' %s; a plain number is needed, such as '12.5'",
                                   runnel_slice_show(whole, shown), what);
    }
    double result = runnel_decimal_scaled(&amount.upper, 1, 0);
    bool lost = result == 0 && amount.upper.count;
    if (!isfinite(result) || lost)
        return runnel_problems_add(problems, RUNNEL_E_RANGE, place,
                                   "'%s' is too %s to be computed with",
                                   runnel_slice_show(whole, shown), lost ? "small" : "large");
    *value = result;
    return RUNNEL_OK;
}

runnel_status runnel_count_parse(const char *text, size_t limit, runnel_problems *problems,
                                 const runnel_place *place, size_t *value) {
    char shown[RUNNEL_SHOWN_SIZE];
    runnel_slice whole = runnel_slice_trim(runnel_slice_of(text)), rest = whole;
    size_t count = 0;
    bool over = false;
    for (; rest.at < rest.end && *rest.at >= '0' && *rest.at <= '9'; rest.at++) {
        size_t digit = (size_t)(*rest.at - '0');
        over = over || digit > limit || count > (limit - digit) / 10;
        count = over ? limit : count * 10 + digit;
    }
    if (rest.at < rest.end || whole.at == whole.end)
        return runnel_problems_add(problems, RUNNEL_E_SYNTAX, place,
                                   "'%s' is not a whole number; one from 0 to %zu is needed",
                                   runnel_slice_show(whole, shown), limit);
    if (over)
        return runnel_problems_add(problems, RUNNEL_E_RANGE, place,
                                   "'%s' is too large; a whole number from 0 to %zu is needed",
                                   runnel_slice_show(whole, shown), limit);
    *value = count;
    return RUNNEL_OK;
}
