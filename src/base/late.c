/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/late.h"

#include <dlfcn.h>
#include <pthread.h>
#include <stdbool.h>
#include <stddef.h>
#include <string.h>

static void *find(void *const *handles, const char *name) {
    void *function = NULL;
    for (size_t i = 0; i < RUNNEL_LATE_MOST && handles[i] && !function; i++)
        function = dlsym(handles[i], name);
    return function;
}

static runnel_status load(const runnel_late *late) {
    void *handles[RUNNEL_LATE_MOST] = {NULL};
    for (size_t i = 0; i < RUNNEL_LATE_MOST && late->files[i]; i++)
        if (!(handles[i] = dlopen(late->files[i], RTLD_LAZY | RTLD_LOCAL)))
            return RUNNEL_E_LIBRARY;
    char *pointer = late->pointers;
    for (size_t i = 0; late->names[i]; i++) {
        void *function = find(handles, late->names[i]);
        if (!function)
            return RUNNEL_E_LIBRARY;
        /* POSIX lets a pointer to a function be held in one to void, ISO C does not convert it. */
        memcpy(pointer, &function, sizeof function);
        pointer += sizeof function;
    }
    return RUNNEL_OK;
}

runnel_status runnel_late_load(runnel_late *late) {
    static pthread_mutex_t one_at_a_time = PTHREAD_MUTEX_INITIALIZER;
    if (atomic_load(&late->loaded))
        return RUNNEL_OK;
    pthread_mutex_lock(&one_at_a_time);
    runnel_status status = atomic_load(&late->loaded) ? RUNNEL_OK : load(late);
    if (!status)
        atomic_store(&late->loaded, true);
    pthread_mutex_unlock(&one_at_a_time);
    return status;
}
