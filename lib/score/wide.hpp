// Wider registers where the machine has them: for loops that work out each element alone, so that the bytes are the
// same on every machine.
#pragma once

// Which of them it has is asked before a sanitizer is ready: a program of both would end as it begins.
#if defined(__x86_64__) && defined(__GNUC__) && !defined(__clang__) && !defined(__SANITIZE_ADDRESS__) && \
    !defined(__SANITIZE_THREAD__)
#define FARFLUNG_WIDE __attribute__((target_clones("avx2", "default")))
#else
#define FARFLUNG_WIDE
#endif

namespace farflung::score {

/// Eight numbers side by side, worked out at once; whole numbers of the same size, as a comparison gives them.
using Lanes [[gnu::vector_size(32), gnu::may_alias]] = float;
using LanesOfBits [[gnu::vector_size(32), gnu::may_alias]] = int;

/// Four numbers in double precision, wherever they begin, and rounded.
using Doubles [[gnu::vector_size(32), gnu::may_alias, gnu::aligned(8)]] = double;
using Rounded [[gnu::vector_size(16), gnu::may_alias]] = float;

}  // namespace farflung::score
