#pragma once

#include "core/media/libav.h"

namespace core::media {

/// What one decoder may hold beside what the program's holders have of the memory budget: half of
/// that budget, at least 1 GiB. A camera's films need far less: 4320p in 10 bits with the most
/// pictures that its level allows to refer to, 5 (ITU-T H.264, A.3.1), and three threads 0.9 GiB.
[[nodiscard]] std::size_t decodingAllowanceBytes() noexcept;

/// As many threads as wanted (0: as many as FFmpeg takes), but no more than have room for their
/// pictures.
[[nodiscard]] int decodingThreads(int wanted, const AVCodecParameters& pictures) noexcept;

/// Lets the decoder put its pictures into jobs::RecycledMemory::ofProgram(), where their memory
/// waits for the next pictures, of any decoder, once the last who holds the picture lets it go.
/// Before avcodec_open2; the decoder's opaque pointer is its DecodeComplaints. A picture beyond the
/// allowance is refused, and complained about. Decoders that only write to memory of their own go
/// on doing so.
void decodeIntoRecycledMemory(AVCodecContext& decoder) noexcept;

}  // namespace core::media
