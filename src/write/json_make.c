/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "write/json_make.h"

#include "base/memory.h"
#include "base/utf8.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

/* JSON has no word for what is not a number or has no end. */
json_t *runnel_json_number(double value) {
    return isfinite(value) ? json_real(value) : json_null();
}

/* Text with each byte that is not UTF-8 (a file name may hold any) as U+FFFD, which JSON can say.
 */
static char *well_formed(const char *text) {
    static const char replacement[] = "\xEF\xBF\xBD";
    char *clean = runnel_resize(NULL, strlen(text) + 1, sizeof replacement - 1);
    size_t end = 0, length;
    for (uint32_t point = runnel_utf8_next(text, &length); clean && length;
         text += length, point = runnel_utf8_next(text, &length)) {
        bool bad = point >= 0xDC80 && point <= 0xDCFF;
        size_t bytes = bad ? sizeof replacement - 1 : length;
        memcpy(clean + end, bad ? replacement : text, bytes);
        end += bytes;
    }
    if (clean)
        clean[end] = '\0';
    return clean;
}

json_t *runnel_json_string(const char *text) {
    if (!text)
        return json_null();
    char *clean = well_formed(text);
    json_t *made = clean ? json_string_nocheck(clean) : NULL;
    runnel_free(clean);
    return made;
}

void runnel_json_put(json_t *object, const char *key, json_t *value, bool *whole) {
    if (json_object_set_new_nocheck(object, key, value) != 0)
        *whole = false;
}

void runnel_json_append(json_t *array, json_t *value, bool *whole) {
    if (json_array_append_new(array, value) != 0)
        *whole = false;
}

static void *hooked_resize(size_t bytes) {
    return runnel_resize(NULL, bytes, 1);
}

/*
 * The whole text in a block of the library, or NULL without memory.
 *
 * Jansson's allocator is one for the whole process. It is set to the library's hook only while
 * values of ours are alive and then set back, so that a program which uses jansson itself finds its
 * own again. Like runnel_set_allocator this is not safe beside other threads that use jansson, as
 * soon as any allocator but malloc is in play.
 */
static char *dumped(runnel_json_function make, const void *from) {
    json_malloc_t own_malloc;
    json_free_t own_release;
    json_get_alloc_funcs(&own_malloc, &own_release);
    json_set_alloc_funcs(hooked_resize, runnel_free);
    bool whole = true;
    json_t *root = make(from, &whole);
    /* 17 digits read back to the very double. Keys keep the order in which they were put. */
    char *text = whole ? json_dumps(root, JSON_INDENT(2) | JSON_REAL_PRECISION(17)) : NULL;
    json_decref(root);
    json_set_alloc_funcs(own_malloc, own_release);
    return text;
}

runnel_status runnel_json_write(runnel_json_function make, const void *from, FILE *out) {
    char *text = dumped(make, from);
    if (!text)
        return RUNNEL_E_NO_MEMORY;
    size_t length = strlen(text);
    bool written = fwrite(text, 1, length, out) == length && fputc('\n', out) != EOF &&
                   fflush(out) == 0 && !ferror(out);
    runnel_free(text);
    return written ? RUNNEL_OK : RUNNEL_E_IO;
}
