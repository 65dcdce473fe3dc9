#pragma once

#include <filesystem>
#include <stop_token>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/publish/film/clip_footage.h"
#include "core/publish/material.h"

namespace core::publish {

/// Words on a film, one line each.
struct FilmWords {
    std::string title;   ///< implement and hitter
    std::string result;  ///< "1491 ± 12 rpm"
    std::string origin;
};

/// A short film of one shot, slowed down to kFilmFramesPerSecond: the whole picture, the ball
/// magnified in a corner where its place is known, and the turns counted from the frame of
/// reference on. H.264 in MP4; the same input gives the same bytes with the same libraries.
/// Errors: as frameStrip(), and those of media::FilmWriter; Cancelled.
inline constexpr int kFilmFramesPerSecond = 12;
Result<void> writeShotFilm(const std::filesystem::path& file, const Material& material,
                           const project::Shot& shot, const FilmWords& words, ClipFootage& footage,
                           const std::stop_token& stop);

}  // namespace core::publish
