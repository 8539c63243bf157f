/*
 * Calls flowsim as a C program does, and as nobody should. Prints what fails and, last, `N passed, N failed`.
 *
 * usage: border FOLDER     with NAME.request and NAME.answer (what `flowsim … --json` prints) for each NAME in the list below
 */
#define _POSIX_C_SOURCE 200809L

#include <pthread.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "flowsim.h"

static const char *const names[] = {"strain", "warm", "honey"};
enum { NAMES = sizeof names / sizeof names[0], THREADS = 8, ROUNDS = 12, CALLS = 10000, MUTATIONS = 20000 };

static int passed, failed;
static char *requests[NAMES], *answers[NAMES];
static size_t lengths[NAMES];

static void check(int holds, const char *what) {
    if (holds) {
        passed++;
    } else {
        failed++;
        printf("FAILED: %s\n", what);
    }
}

static char *read_file(const char *folder, const char *name, const char *ending, size_t *length) {
    char path[4096];
    snprintf(path, sizeof path, "%s/%s.%s", folder, name, ending);
    FILE *file = fopen(path, "rb");
    if (file == NULL) {
        perror(path);
        exit(2);
    }
    char *text = NULL;
    size_t count = 0, got = 0;
    do {
        count += got;
        text = realloc(text, count + 65537);
        if (text == NULL)
            exit(2);
        got = fread(text + count, 1, 65536, file);
    } while (got > 0);
    fclose(file);
    text[count] = '\0';
    *length = count;
    return text;
}

/* Asks, gives the reply back and returns the status; -1 when the reply is not what the header promises. */
static int ask(const char *request, size_t length) {
    char *reply = (char *)1;
    size_t reply_length = 1;
    int status = flowsim_answer(request, length, &reply, &reply_length);
    int sound = status == FLOWSIM_NULL || status == FLOWSIM_NO_MEMORY ? reply == NULL && reply_length == 0
        : reply != NULL && reply_length > 2 && reply[0] == '{' && reply[reply_length - 1] == '}' && reply[reply_length] == '\0' && strlen(reply) == reply_length;
    flowsim_free(reply);
    return sound ? status : -1;
}

/* Whether the reply ends with what the command printed, byte for byte. */
static int is_answered(const char *request, size_t length, const char *answer) {
    char *reply = NULL;
    size_t reply_length = 0;
    int status = flowsim_answer(request, length, &reply, &reply_length);
    int same = 0;
    if (status == FLOWSIM_OK) {
        char *begin = strstr(reply, ",\"answer\":");
        size_t wanted = strlen(answer) - 1; /* without the end of its last line */
        if (begin != NULL) {
            begin += strlen(",\"answer\":");
            same = (size_t)(reply + reply_length - begin) == wanted + 1 && memcmp(begin, answer, wanted) == 0 && begin[wanted] == '}';
        }
    }
    flowsim_free(reply);
    return same;
}

static void *same_on_a_thread(void *unused) {
    (void)unused;
    for (int round = 0; round < ROUNDS; round++)
        for (int i = 0; i < NAMES; i++)
            if (!is_answered(requests[i], lengths[i], answers[i]))
                return "differs";
    return NULL;
}

static void *deep_on_a_small_stack(void *unused) {
    (void)unused;
    enum { DEEP = 100000 };
    static const char begin[] = "{\"contract\":1,\"command\":\"strain\",\"arguments\":[\"a\"],\"files\":{\"a\":\"a = ";
    char *request = malloc(sizeof begin + DEEP + 8);
    if (request == NULL)
        return NULL;
    strcpy(request, begin);
    memset(request + sizeof begin - 1, '[', DEEP);
    strcpy(request + sizeof begin - 1 + DEEP, "\"}}");
    int status = ask(request, strlen(request));
    free(request);
    return status == FLOWSIM_OK ? NULL : "failed";
}

static void check_threads(void) {
    pthread_t threads[THREADS];
    int same = 1;
    for (int i = 0; i < THREADS; i++)
        if (pthread_create(&threads[i], NULL, same_on_a_thread, NULL) != 0)
            exit(2);
    for (int i = 0; i < THREADS; i++) {
        void *trouble;
        pthread_join(threads[i], &trouble);
        same &= trouble == NULL;
    }
    check(same, "eight threads at once get the same bytes");

    pthread_attr_t small;
    pthread_t thread;
    void *trouble = "not run";
    pthread_attr_init(&small);
    pthread_attr_setstacksize(&small, 128 * 1024);
    if (pthread_create(&thread, &small, deep_on_a_small_stack, NULL) == 0)
        pthread_join(thread, &trouble);
    pthread_attr_destroy(&small);
    check(trouble == NULL, "deep nesting in a text, asked on a stack of 128 kB");
}

static void check_misuse(void) {
    char *reply = NULL;
    size_t length = 0;
    check(flowsim_answer(NULL, 0, &reply, &length) == FLOWSIM_NULL && reply == NULL, "no request");
    check(flowsim_answer("{}", 2, NULL, &length) == FLOWSIM_NULL && length == 0, "nowhere to put the reply");
    check(flowsim_answer("{}", 2, &reply, NULL) == FLOWSIM_NULL && reply == NULL, "nowhere to put its length");
    flowsim_free(NULL);
    check(ask("", 0) == FLOWSIM_NOT_JSON, "an empty request");
    check(ask("{\"contract\":\0001}", 14) == FLOWSIM_NOT_JSON, "a zero in the request");
    check(ask("{\"contract\":1,\"command\":\"\xff\"}", 29) == FLOWSIM_NOT_UTF8, "not UTF-8");
    check(ask("{\"contract\":1,\"command\":\"\\ud800\"}", 33) == FLOWSIM_NOT_UTF8, "half a surrogate pair");
    check(ask("[]", 2) == FLOWSIM_BAD_REQUEST, "an array");
    check(ask("{}", 2) == FLOWSIM_BAD_REQUEST, "an object of nothing");
    check(ask("{\"contract\":2,\"command\":\"strain\"}", 33) == FLOWSIM_BAD_REQUEST, "another contract");
    check(ask("{\"contract\":1,\"contract\":1}", 27) == FLOWSIM_NOT_JSON, "a member given twice");
    check(ask("{\"contract\":1,\"command\":\"nonsense\"}", 35) == FLOWSIM_OK, "a command that there is not, which is for the command line to say");

    enum { LARGE = 100000000, DEEP = 100000 };
    char *large = malloc(LARGE);
    if (large != NULL) {
        memset(large, ' ', LARGE);
        check(ask(large, LARGE) == FLOWSIM_TOO_LARGE, "100 MB");
        check(ask(large, FLOWSIM_LARGEST_REQUEST + (size_t)1) == FLOWSIM_TOO_LARGE, "one byte more than allowed");
        check(ask(large, SIZE_MAX) == FLOWSIM_TOO_LARGE, "a length that cannot be");
        check(ask(large, FLOWSIM_LARGEST_REQUEST) == FLOWSIM_NOT_JSON, "the largest request, of nothing but blanks");
        memset(large, '[', DEEP);
        check(ask(large, DEEP) == FLOWSIM_NOT_JSON, "nesting of 100 000");
        free(large);
    }
}

static uint64_t state = 20261129;

/* xorshift64 (Marsaglia 2003): the same sequence everywhere. */
static uint64_t next(void) {
    state ^= state << 13;
    state ^= state >> 7;
    state ^= state << 17;
    return state;
}

static void check_hostile(void) {
    static const char base[] =
        "{\"contract\":1,\"command\":\"honey\",\"arguments\":[\"run.toml\",\"--set\",\"honey.moisture=17.8 %\"],\"seconds\":5,"
        "\"files\":{\"run.toml\":\"[honey]\\ntemperature = \\\"35 C\\\"\\nmoisture = \\\"18 %\\\"\\n\"}}";
    size_t length = sizeof base - 1;
    int sound = ask(base, length) == FLOWSIM_OK;
    for (size_t cut = 0; cut < length; cut++)
        sound &= ask(base, cut) > FLOWSIM_NULL;
    check(sound, "a request cut short anywhere is refused");

    char text[sizeof base + 64];
    sound = 1;
    int answered = 0;
    for (int i = 0; i < MUTATIONS; i++) {
        size_t now = length;
        memcpy(text, base, length);
        for (uint64_t edits = 1 + next() % 3; edits > 0; edits--) {
            size_t at = next() % now;
            switch (next() % 4) {
            case 0:
                text[at] = (char)next();
                break;
            case 1:
                text[at] = "\"\\{}[]:,0123456789.eE+-=%# \n"[next() % 28];
                break;
            case 2:
                memmove(text + at, text + at + 1, now - at - 1);
                now--;
                break;
            default:
                memmove(text + at + 1, text + at, now - at);
                text[at] = (char)(' ' + next() % 95);
                now++;
                break;
            }
        }
        int status = ask(text, now);
        sound &= status > FLOWSIM_NULL ? status < FLOWSIM_NO_MEMORY : status == FLOWSIM_OK;
        answered += status == FLOWSIM_OK;
    }
    check(sound, "20 000 requests with a few wrong bytes");
    check(answered > MUTATIONS / 100, "some of them got as far as a command");

    sound = 1;
    for (int i = 0; i < MUTATIONS; i++) {
        char noise[64];
        size_t count = next() % sizeof noise;
        for (size_t k = 0; k < count; k++)
            noise[k] = (char)next();
        int status = ask(noise, count);
        sound &= status == FLOWSIM_NOT_UTF8 || status == FLOWSIM_NOT_JSON || status == FLOWSIM_BAD_REQUEST;
    }
    check(sound, "20 000 requests of random bytes");
}

/* What the process holds in memory, kB. */
static long resident(void) {
    long pages = 0;
    FILE *file = fopen("/proc/self/statm", "r");
    if (file == NULL || fscanf(file, "%*d %ld", &pages) != 1)
        pages = 0;
    if (file != NULL)
        fclose(file);
    return pages * (sysconf(_SC_PAGESIZE) / 1024);
}

static void check_memory(void) {
    int sound = 1;
    for (int i = 0; i < CALLS / 5; i++)
        sound &= ask(requests[2], lengths[2]) == FLOWSIM_OK;
    long before = resident();
    for (int i = 0; i < CALLS; i++)
        sound &= ask(requests[2], lengths[2]) == FLOWSIM_OK;
    long after = resident();
    printf("memory: %ld kB before, %ld kB after %d calls\n", before, after, CALLS);
    check(sound && before > 0 && after - before < 16 * 1024, "10 000 calls within 16 MB of where memory was");
}

int main(int count, char **arguments) {
    if (count != 2) {
        fprintf(stderr, "usage: border FOLDER\n");
        return 2;
    }
    check(flowsim_contract() == FLOWSIM_CONTRACT, "the contract is that of the header");
    check(strchr(flowsim_version(), '.') != NULL && flowsim_version() == flowsim_version(), "a version that stays");
    for (int i = 0; i < NAMES; i++) {
        size_t unused;
        requests[i] = read_file(arguments[1], names[i], "request", &lengths[i]);
        answers[i] = read_file(arguments[1], names[i], "answer", &unused);
        check(is_answered(requests[i], lengths[i], answers[i]), names[i]);
    }
    check_misuse();
    check_threads();
    check_memory();
    check_hostile();
    for (int i = 0; i < NAMES; i++) {
        check(is_answered(requests[i], lengths[i], answers[i]), "answers as before after all this");
        free(requests[i]);
        free(answers[i]);
    }
    printf("%d passed, %d failed\n", passed, failed);
    return failed == 0 ? 0 : 1;
}
