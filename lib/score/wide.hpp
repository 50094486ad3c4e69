// Wider registers where the machine has them: for loops that work out each element alone, so that the bytes are the
// same on every machine.
#pragma once

#if defined(__x86_64__) && defined(__GNUC__) && !defined(__clang__) && !defined(__SANITIZE_ADDRESS__)
#define FARFLUNG_WIDE __attribute__((target_clones("avx2", "default")))
#else
#define FARFLUNG_WIDE
#endif
