/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "near.h"

#include "../compare.h"

#include <jansson.h>
#include <stdlib.h>
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
static bool check_line(json_t *root, char *line, int number, FILE *report) {
    char path[LONGEST_LINE], copy[LONGEST_LINE];
    double want, relative, absolute = 0;
    line[strcspn(line, "#")] = '\0';
    if (line[strspn(line, " \t")] == '\0')
        return true;
    if (sscanf(line, "%999s %lf %lf %lf", path, &want, &relative, &absolute) < 3) {
        fprintf(report, "line %d: not 'path number tolerance': %s\n", number, line);
        return false;
    }
    memcpy(copy, path, sizeof copy);
    double got = number_at(root, path);
    if (!isnan(got) && runnel_near(got, want, relative, absolute))
        return true;
    fprintf(report, "%s: got %.17g, want %.17g (relative %g, absolute %g, gap %.3g)\n", copy, got,
            want, relative, absolute, got - want);
    return false;
}

bool numbers_are_near(const char *json, size_t size, const char *expected, FILE *report) {
    json_error_t error;
    json_t *root = json_loadb(json, size, 0, &error);
    if (!root) {
        fprintf(report, "%s\n", error.text);
        return false;
    }
    char line[LONGEST_LINE];
    int number = 0, bad = 0;
    for (const char *at = expected; *at;) {
        size_t length = strcspn(at, "\n");
        snprintf(line, sizeof line, "%.*s", (int)length, at);
        bad += !check_line(root, line, ++number, report);
        at += length + (at[length] == '\n');
    }
    json_decref(root);
    return bad == 0;
}
