#pragma once

#include "core/media/file/clip_index.h"
#include "core/project/model.h"

namespace core::intake {

/// What the project keeps of a clip, made from its index. Session and id are left open; path, size
/// and fingerprint are the caller's.
[[nodiscard]] project::Clip recordOf(const media::ClipIndex& index);

/// Time stamps and key frames for the project.
[[nodiscard]] project::ClipFrames framesOf(const media::ClipIndex& index);

/// The index a decoder needs, from what the project keeps: the file is not touched.
[[nodiscard]] media::ClipIndex indexOf(const project::Clip& clip,
                                       const project::ClipFrames& frames);

/// Stable name of a warning for storage and JSON, for example "gap".
[[nodiscard]] std::string_view warningName(media::ClipWarning::Kind kind) noexcept;

}  // namespace core::intake
