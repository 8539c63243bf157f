/*
 * FlowSim as a C library: one call that takes a request as JSON and gives a reply as JSON.
 * What requests and replies hold is described in docs/guides/native.md.
 *
 * The library reads and writes no file, opens no connection, writes nothing to standard output or standard error, and starts no
 * process. What a command would read from a file is given to it in the request.
 *
 * Every function may be called from any thread, from any number of them at once. The same request gets the same answer.
 * No call ends the process or throws anything across this border. The processor needs AVX2 and FMA.
 */
#ifndef FLOWSIM_H
#define FLOWSIM_H

#include <stddef.h>

#ifdef __cplusplus
extern "C" {
#endif

/* The contract that this header describes. It changes only when an old caller would break. */
#define FLOWSIM_CONTRACT 1

/* What flowsim_answer returns. New codes may be added; treat one that you do not know as FLOWSIM_FAILED. */
enum flowsim_status {
    FLOWSIM_OK = 0,         /* The command was run; its exit code, which need not be 0, is in the reply. */
    FLOWSIM_NULL = 1,       /* A pointer is null. There is no reply. */
    FLOWSIM_TOO_LARGE = 2,  /* The request is longer than FLOWSIM_LARGEST_REQUEST. */
    FLOWSIM_NOT_UTF8 = 3,   /* The request is not UTF-8 text. */
    FLOWSIM_NOT_JSON = 4,   /* The request is not JSON, or is nested more deeply than a request is. */
    FLOWSIM_BAD_REQUEST = 5,/* The request is JSON and not a request of this contract; the reply says what is wrong. */
    FLOWSIM_NO_MEMORY = 6,  /* Memory ran out. There may be no reply. */
    FLOWSIM_FAILED = 7      /* Something in the library is wrong; please report it with the request. */
};

/* Longest request, bytes. */
#define FLOWSIM_LARGEST_REQUEST 67108864

/* The contract that the library keeps; compare it with FLOWSIM_CONTRACT. */
int flowsim_contract(void);

/* The version of the library, as in "1.2.3": UTF-8, ended by a zero. It belongs to the library and stays. */
const char *flowsim_version(void);

/*
 * Runs a command.
 *
 * request       JSON in UTF-8; it is only read, and not kept after the call. It need not end with a zero.
 * length        Its length in bytes.
 * reply         Takes the reply: JSON in UTF-8, ended by a zero that is not counted. It belongs to the caller, who hands it to
 *               flowsim_free. Null when there is none.
 * reply_length  Takes the reply's length in bytes; 0 when there is none.
 *
 * Returns one of flowsim_status. With every code but FLOWSIM_NULL and FLOWSIM_NO_MEMORY there is a reply, which says the same in words.
 */
int flowsim_answer(const char *request, size_t length, char **reply, size_t *reply_length);

/* Gives a reply back. Null is allowed. Every reply is given back once, from any thread. */
void flowsim_free(char *reply);

#ifdef __cplusplus
}
#endif

#endif
