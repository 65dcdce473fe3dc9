#include "tests/fuzz/targets.h"

/// One fuzzer of libFuzzer (https://llvm.org/docs/LibFuzzer.html); FUZZ_FEED is the door it is for.
// NOLINTNEXTLINE(readability-identifier-naming): libFuzzer calls it by this name.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    tests::fuzz::FUZZ_FEED({data, size});
    return 0;
}
