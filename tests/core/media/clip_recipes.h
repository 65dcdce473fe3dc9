#pragma once

#include <ostream>
#include <string>
#include <vector>

namespace tests {

/// How the ffmpeg program makes a clip.
struct ClipRecipe {
    std::string name;  ///< letters and digits
    std::string ending;
    std::string arguments;
    [[nodiscard]] std::string fileName() const { return name + "." + ending; }
};

inline void PrintTo(const ClipRecipe& recipe, std::ostream* out) {
    *out << recipe.name;
}

/// Moving test pictures, 160 by 120, with noise so that no two pictures are alike.
std::string movingSource(const std::string& rate, int frames);

/// Codecs and containers that have presentation stamps.
std::vector<ClipRecipe> stampedRecipes();
/// AVI files without presentation stamps: B-frames.
std::vector<ClipRecipe> unstampedRecipes();
std::vector<ClipRecipe> allRecipes();

}  // namespace tests
