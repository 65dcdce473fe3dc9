#pragma once

#include <filesystem>
#include <stop_token>
#include <vector>

#include "core/media/file/clip_index.h"

namespace core::media {

/// Finds pictures of [first, last] that repeat the one before them, as an editor makes them when
/// it raises the frame rate: the frame's brightness equals its predecessor's, up to what
/// compression does, while the pictures around it change.
///
/// A picture counts as repeated when its mean absolute difference from the one before it is below
/// a tenth of the largest such difference among the seven steps before and also among the seven
/// steps after it. It is only suspicious when its neighbours differ: a scene in which nothing moves
/// and nothing is noisy gives no warning, nor do the first and the last frames of a clip. Frames
/// that cannot be decoded are passed over. Cost: decodes every frame.
///
/// Warnings are of the kind RepeatedPicture, one a frame, for the repeating one.
/// Errors: OutOfRange; Cancelled; as FrameDecoder::open.
Result<std::vector<ClipWarning>> findRepeatedPictures(const std::filesystem::path& file,
                                                      const ClipIndex& index,
                                                      timebase::FrameIndex first,
                                                      timebase::FrameIndex last,
                                                      std::stop_token stop = {});

}  // namespace core::media
