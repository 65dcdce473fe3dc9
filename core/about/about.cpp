#include "core/about/about.h"

#include <sqlite3.h>

extern "C" {
#include <libavutil/avutil.h>
}

#include <Eigen/Core>
#include <opencv2/core/utility.hpp>

#include "core/about/commit.h"
#include "core/base/version.h"

namespace core::about {

std::vector<std::string> aboutLines() {
    return {programName(),
            std::string{"commit "} + kCommit,
            std::string{"FFmpeg "} + av_version_info(),
            "OpenCV " + cv::getVersionString(),
            std::string{"SQLite "} + sqlite3_libversion(),
            "Eigen " + std::to_string(EIGEN_WORLD_VERSION) + '.' +
                std::to_string(EIGEN_MAJOR_VERSION) + '.' + std::to_string(EIGEN_MINOR_VERSION)};
}

}  // namespace core::about
