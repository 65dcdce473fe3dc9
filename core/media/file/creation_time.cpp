#include "core/media/file/creation_time.h"

extern "C" {
#include <libavutil/parseutils.h>
}

#include "core/media/file/clip_file.h"

namespace core::media {

std::optional<std::chrono::sys_time<std::chrono::microseconds>> creationTimeOf(
    const std::filesystem::path& file) {
    const auto header = ClipFile::openHeader(file, {});
    if (!header) {
        return std::nullopt;
    }
    const AVDictionaryEntry* said =
        av_dict_get(header.value()->format().metadata, "creation_time", nullptr, 0);
    std::int64_t microseconds = 0;
    if (said == nullptr || av_parse_time(&microseconds, said->value, 0) < 0) {
        return std::nullopt;
    }
    return std::chrono::sys_time<std::chrono::microseconds>{
        std::chrono::microseconds{microseconds}};
}

}  // namespace core::media
