/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "words.h"

#include <string.h>

/* Whether the shell takes a character for itself outside of quotes, wherever it stands. */
static bool is_plain(char c) {
    return c && strchr("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-_./:,=%+@",
                       c) != NULL;
}

static bool put(char letter, words *to) {
    if (to->length == LONGEST_WORDS)
        return false;
    to->letters[to->length++] = letter;
    return true;
}

static bool begin(words *to) {
    if (to->count == MOST_WORDS)
        return false;
    to->items[to->count++] = to->letters + to->length;
    to->items[to->count] = NULL;
    return true;
}

/* Takes what stands between quotes. @return the closing one, or NULL */
static const char *take_quoted(const char *at, words *to) {
    char quote = *at++;
    for (const char *refused = quote == '"' ? "$`\\\n" : "\n"; *at != quote; at++)
        if (!*at || strchr(refused, *at) || !put(*at, to))
            return NULL;
    return at;
}

bool split_words(const char *line, words *to) {
    bool is_in_word = false;
    for (const char *at = line; *at; at++) {
        bool is_blank = *at == ' ' || *at == '\t';
        if (!is_blank && !is_in_word && !begin(to))
            return false;
        if (*at == '\'' || *at == '"')
            at = take_quoted(at, to);
        else if (is_blank ? is_in_word && !put('\0', to) : !is_plain(*at) || !put(*at, to))
            return false;
        if (!at)
            return false;
        is_in_word = !is_blank;
    }
    return !is_in_word || put('\0', to);
}

bool add_word(const char *word, words *to) {
    bool is_added = begin(to);
    for (size_t i = 0; is_added && i <= strlen(word); i++)
        is_added = put(word[i], to);
    return is_added;
}
