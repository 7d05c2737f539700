/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Runs a fuzz target over files, so that a corpus can be replayed with any compiler:
 * replay_<target> FILE...
 * The target stops the program (abort or a sanitizer) when its property does not hold.
 */
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

/* Reads a whole file; a block of at least one byte, or NULL. */
static uint8_t *read_all(FILE *file, size_t *size) {
    uint8_t *data = NULL;
    size_t capacity = 0;
    *size = 0;
    do {
        if (*size == capacity) {
            capacity = capacity ? capacity * 2 : 4096;
            uint8_t *more = realloc(data, capacity);
            if (!more) {
                free(data);
                return NULL;
            }
            data = more;
        }
        *size += fread(data + *size, 1, capacity - *size, file);
    } while (!feof(file) && !ferror(file));
    return data;
}

/* The target gets a block of exactly the file's size, so that reading past its end is seen. */
static int replay(const char *path) {
    FILE *file = fopen(path, "rb");
    if (!file) {
        perror(path);
        return 1;
    }
    size_t size;
    uint8_t *data = read_all(file, &size);
    fclose(file);
    if (!data)
        return 1;
    uint8_t *exact = size ? realloc(data, size) : data;
    LLVMFuzzerTestOneInput(exact ? exact : data, size);
    free(exact ? exact : data);
    return 0;
}

int main(int argc, char **argv) {
    int failed = 0;
    for (int i = 1; i < argc; i++)
        failed |= replay(argv[i]);
    return failed;
}
