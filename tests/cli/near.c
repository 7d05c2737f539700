/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Compares numbers in a JSON text with expected ones: near FILE.json EXPECTED
 *
 * Each line of EXPECTED is: path, wanted number, relative tolerance, and if needed an absolute one:
 *
 *     cavities[0].volume_ml         18.666666666667  1e-9
 *     batches[colour=amber].tint_g  0                0     1e-12
 *     length(warnings)              2                0
 *
 * [3] takes an item by its place, [key=text] the first item whose member `key` is that text.
 * Text from # to the end of the line is a comment: there the source of the number belongs.
 * Exit status 1 when a number is off or missing, 2 when a file cannot be read.
 */
#include "../compare.h"

#include <jansson.h>
#include <stdio.h>
#include <string.h>

#define LONGEST_LINE 1000

/* The item of an array whose member is a text; `wanted` is "key=text". */
static json_t *item_with(json_t *array, const char *wanted) {
    const char *equals = strchr(wanted, '=');
    size_t index;
    json_t *item;
    json_array_foreach(array, index, item) {
        json_t *member = json_object_getn(item, wanted, (size_t)(equals - wanted));
        const char *text = json_string_value(member);
        if (text && strcmp(text, equals + 1) == 0)
            return item;
    }
    return NULL;
}

/* Follows one step of a path, which it cuts off; NULL when there is no such value. */
static json_t *follow(json_t *value, char **path) {
    char *step = *path;
    if (*step == '[') {
        char *end = strchr(step, ']');
        if (!end)
            return NULL;
        *end = '\0';
        *path = end + 1;
        if (strchr(step, '='))
            return item_with(value, step + 1);
        return json_array_get(value, strtoul(step + 1, NULL, 10));
    }
    step += *step == '.';
    size_t length = strcspn(step, ".[");
    *path = step + length;
    return json_object_getn(value, step, length);
}

/* The number at a path, or NAN: of a number its value, with length(...) the items of an array. */
static double number_at(json_t *value, char *path) {
    const char *open = "length(";
    bool length = strncmp(path, open, strlen(open)) == 0;
    if (length) {
        path += strlen(open);
        path[strcspn(path, ")")] = '\0';
    }
    while (value && *path)
        value = follow(value, &path);
    if (length)
        return json_is_array(value) ? (double)json_array_size(value) : NAN;
    return json_is_number(value) ? json_number_value(value) : NAN;
}

/* Checks one line; returns whether it holds. Empty lines hold. */
static bool check_line(json_t *root, char *line, int number) {
    char path[LONGEST_LINE], copy[LONGEST_LINE];
    double want, relative, absolute = 0;
    line[strcspn(line, "#\n")] = '\0';
    if (line[strspn(line, " \t")] == '\0')
        return true;
    if (sscanf(line, "%999s %lf %lf %lf", path, &want, &relative, &absolute) < 3) {
        printf("line %d: not 'path number tolerance': %s\n", number, line);
        return false;
    }
    memcpy(copy, path, sizeof copy);
    double got = number_at(root, path);
    if (!isnan(got) && runnel_near(got, want, relative, absolute))
        return true;
    printf("%s: got %.17g, want %.17g (relative %g, absolute %g, gap %.3g)\n", copy, got, want,
           relative, absolute, got - want);
    return false;
}

int main(int argc, char **argv) {
    json_error_t error;
    json_t *root = argc == 3 ? json_load_file(argv[1], 0, &error) : NULL;
    FILE *expected = argc == 3 ? fopen(argv[2], "r") : NULL;
    if (!root || !expected) {
        printf("%s\n", argc != 3 ? "near FILE.json EXPECTED" : root ? argv[2] : error.text);
        return 2;
    }
    char line[LONGEST_LINE];
    int number = 0, bad = 0;
    while (fgets(line, sizeof line, expected))
        bad += !check_line(root, line, ++number);
    fclose(expected);
    json_decref(root);
    return bad != 0;
}
