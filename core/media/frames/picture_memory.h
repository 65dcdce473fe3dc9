#pragma once

#include "core/media/libav.h"

namespace core::media {

/// Lets the decoder put its pictures into jobs::RecycledMemory::ofProgram(), where their memory
/// waits for the next pictures, of any decoder, once the last who holds the picture lets it go.
/// Before avcodec_open2. Decoders that only write to memory of their own go on doing so.
void decodeIntoRecycledMemory(AVCodecContext& decoder) noexcept;

}  // namespace core::media
